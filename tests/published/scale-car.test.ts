import { describe, expect, test } from 'vitest';
import { YAW_RATE } from '../../harness/plant/state.ts';
import { NARROW_LOCK, narrowPlant } from '../plant/narrow-plant.ts';
import published from './scale-car-1-10.json' with { type: 'json' };
import { type Input, integrate, type SingleTrack, singleTrack } from './single-track-model.ts';

const p = published.parameters;
const computed = published.handling_computed;
const linear = {
  m: p.m,
  inertia: p.I,
  lf: p.lf,
  lr: p.lr,
  front: published.linear_axle_stiffness_N_per_rad.front,
  rear: published.linear_axle_stiffness_N_per_rad.rear,
};
const wheelbase = p.lf + p.lr;
const step = 5e-5;

const model: SingleTrack = {
  mu: p.mu,
  stiffnessFront: p.C_Sf,
  stiffnessRear: p.C_Sr,
  lf: p.lf,
  lr: p.lr,
  h: p.h,
  m: p.m,
  inertia: p.I,
  steeringRate: [p.sv_min, p.sv_max],
  steering: [p.s_min, p.s_max],
  speed: [p.v_min, p.v_max],
  switchSpeed: p.v_switch,
  acceleration: p.a_max,
};

/** Yaw rate of the plant after a step of the steering at speed `v`, sampled each step. */
function plantStep(v: number, duration: number): number[] {
  const plant = narrowPlant(linear);
  plant.place({ x: 0, y: 0, yaw: 0, speed: v });
  return Array.from({ length: Math.round(duration / step) }, () => {
    plant.step([0, 0], 0, 1000, step);
    return plant.state.body[YAW_RATE]!;
  });
}

/** The same of the independent model. */
function modelStep(v: number, duration: number): number[] {
  let x = [0, 0, NARROW_LOCK, v, 0, 0, 0];
  return Array.from({ length: Math.round(duration / step) }, () => {
    x = integrate((at) => singleTrack(model, at, [0, 0]), x, 1, step);
    return x[5]!;
  });
}

describe('the single-track set of a 1:10 car (O’Kelly et al., PMLR 123, 2020)', () => {
  test.each(published.single_track_derivative_vectors_computed.vectors)(
    'the independent model gives derivative vector $f',
    ({ x, u, f }) => {
      const found = singleTrack(model, x, u as unknown as Input);
      for (const [i, value] of f.entries()) expect(found[i]!).toBeCloseTo(value, 11);
    },
  );

  test('understeer gradient and characteristic speed by closed form', () => {
    const { front, rear } = linear;
    const gradient = (p.m / wheelbase) * (p.lr / front - p.lf / rear);
    expect(gradient).toBeCloseTo(computed.K_rad_s2_per_m, 14);
    expect(Math.sqrt(wheelbase / gradient)).toBeCloseTo(computed.v_char, 9);
    expect((gradient * 9.81 * 180) / Math.PI).toBeCloseTo(computed.K_deg_per_g, 9);
  });
});

describe('the full plant made narrow and linear', () => {
  test('understeer gradient and characteristic speed within 1 %', () => {
    const gains = [2, 8].map((v) => plantStep(v, 1.5).at(-1)! / NARROW_LOCK);
    // 1 / gain = L / v + K v at two speeds.
    const gradient = (1 / gains[1]! - (1 / gains[0]!) * (2 / 8)) / (8 - 2 * (2 / 8));
    const length = 2 * (1 / gains[0]! - gradient * 2);
    expect(Math.abs(gradient / computed.K_rad_s2_per_m - 1)).toBeLessThan(0.01);
    expect(Math.abs(Math.sqrt(length / gradient) / computed.v_char - 1)).toBeLessThan(0.01);
  });

  test.each(computed.step)('step response at $v m/s within 1 %', (each) => {
    const duration = 0.8;
    const found = plantStep(each.v, duration);
    const expected = modelStep(each.v, duration);
    const steady = each.yaw_gain * NARROW_LOCK;
    const apart = found.map((rate, i) => Math.abs(rate - expected[i]!) / steady);
    expect(Math.max(...apart)).toBeLessThan(0.01);
    expect(Math.abs(found.at(-1)! / steady - 1)).toBeLessThan(0.01);
    const t90 = found.findIndex((rate) => rate >= 0.9 * steady) * step;
    expect(Math.abs(t90 - each.t90_s)).toBeLessThan(0.01 * each.t90_s + step);
    const overshoot = Math.max(...found) / steady - 1;
    expect(Math.abs(Math.max(overshoot, 0) - each.overshoot)).toBeLessThan(0.003);
    if (each.t_peak_s === undefined || each.overshoot < 0.01) return;
    const peak = found.indexOf(Math.max(...found)) * step;
    expect(Math.abs(peak - each.t_peak_s)).toBeLessThan(0.02 * each.t_peak_s);
  });
});
