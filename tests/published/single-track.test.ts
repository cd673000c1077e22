import { describe, expect, test } from 'vitest';
import published from './single-track.json' with { type: 'json' };
import {
  type Input,
  integrate,
  kinematic,
  type SingleTrack,
  singleTrack,
} from './single-track-model.ts';

const v2 = published.parameters_vehicle_2;

const vehicle: SingleTrack = {
  mu: v2.tire.p_dy1,
  stiffnessFront: -v2.tire.p_ky1 / v2.tire.p_dy1,
  stiffnessRear: -v2.tire.p_ky1 / v2.tire.p_dy1,
  lf: v2.a,
  lr: v2.b,
  h: v2.h_s,
  m: v2.m,
  inertia: v2.I_z,
  steeringRate: [v2.steering.v_min, v2.steering.v_max],
  steering: [v2.steering.min, v2.steering.max],
  speed: [v2.longitudinal.v_min, v2.longitudinal.v_max],
  switchSpeed: v2.longitudinal.v_switch,
  acceleration: v2.longitudinal.a_max,
};

const models = { ks: kinematic, st: singleTrack };

describe('the independent single-track model (CommonRoad vehicle models 2020a, BSD-3)', () => {
  test.each(published.derivative_vectors)('published derivative vector: $model', (vector) => {
    const model = models[vector.model as keyof typeof models];
    const found = model(vehicle, vector.x, vector.u as unknown as Input);
    for (const [i, value] of vector.f.entries())
      expect(Math.abs(found[i]! - value)).toBeLessThan(vector.tol * Math.max(1, Math.abs(value)));
  });

  const { dec, acc_left, left } = published.zero_initial_velocity;

  test.each([
    { name: 'roll', u: [0, 0], st: [0, 0, 0, 0, 0, 0, 0], ks: [0, 0, 0, 0, 0] },
    { name: 'dec', ...dec },
    { name: 'acc_left', ...acc_left },
    { name: 'left', ...left },
  ])('published end state from a standstill after 1 s: $name', ({ u, st, ks }) => {
    const input = u as unknown as Input;
    const end = integrate(
      (x) => singleTrack(vehicle, x, input),
      [0, 0, 0, 0, 0, 0, 0],
      10_000,
      1e-4,
    );
    // The source's own tolerance, absolute.
    for (const [i, value] of st.entries()) expect(Math.abs(end[i]! - value)).toBeLessThan(0.01);
    const rolled = integrate((x) => kinematic(vehicle, x, input), [0, 0, 0, 0, 0], 10_000, 1e-4);
    for (const [i, value] of ks.entries()) expect(Math.abs(rolled[i]! - value)).toBeLessThan(0.01);
  });
});
