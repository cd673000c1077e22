import { describe, expect, test } from 'vitest';
import { advance } from '../../harness/plant/advance.ts';
import { deflectTyres, measureContacts } from '../../harness/plant/deflect-tyres.ts';
import { createFrame, type Frame } from '../../harness/plant/frame.ts';
import { evenGround } from '../../harness/plant/ground.ts';
import { VX, VY } from '../../harness/plant/state.ts';
import { bareBattery, bareMotor, onStand } from '../plant/stand.ts';
import published from './numerics.json' with { type: 'json' };
import { integrate } from './single-track-model.ts';

const { r, J, C_kappa: stiffness, rows } = published.wheel_slip_stiffness.example;
const still = published.relaxation.undamped_standstill;

/** One light wheel of the source on a body too heavy to notice; endless grip, no damping. */
function wheelOnHeavyBody(speed: number): Frame {
  const stand = onStand(bareMotor({ inertia: 0 }), bareBattery(8));
  const frame = createFrame(
    {
      ...stand,
      gravity: 9.81,
      body: { ...stand.body, mass: 1000, yawInertia: 1000 },
      wheelRadius: [r, r, r, r],
      wheelInertia: [J, J, J, J],
      ground: evenGround({
        name: 'endless grip',
        friction: 1000,
        rolling: 0,
        relaxationLength: still.sigma,
        tyre: { kind: 'brush', slipStiffness: stiffness, halfContact: 0 },
      }),
    },
    false,
  );
  frame.tyre.damping.fill(0);
  frame.state.body[VX] = speed;
  for (let i = 0; i < 4; i++) frame.state.speeds[i] = speed / r;
  measureContacts(frame);
  return frame;
}

function run(frame: Frame, steps: number, dt: number, each: (i: number) => void): void {
  for (let i = 0; i < steps; i++) {
    advance(frame, [0, 0, 0, 0], 0, 0, dt);
    each(i);
  }
}

describe('the tyre at a standstill is a spring (relaxation in deflection form)', () => {
  test('a wheel on it oscillates with sqrt(C r^2 / (sigma J)), 37.1 Hz', () => {
    const frame = wheelOnHeavyBody(0);
    frame.state.speeds[0] = 0.01;
    const crossings: number[] = [];
    let before = 0.01;
    run(frame, 20_000, 1e-5, (i) => {
      const speed = frame.state.speeds[0]!;
      if (before < 0 && speed >= 0) crossings.push((i + before / (before - speed)) * 1e-5);
      before = speed;
    });
    const periods = crossings.length - 1;
    const frequency = periods / (crossings.at(-1)! - crossings[0]!);
    expect(periods).toBeGreaterThan(5);
    expect(Math.abs(frequency / still.f_Hz - 1)).toBeLessThan(1e-3);
  });

  test('the step is stable up to 2 / omega, as for any symplectic scheme, and no further', () => {
    const largest = (dt: number) => {
      const frame = wheelOnHeavyBody(0);
      frame.state.speeds[0] = 0.01;
      let most = 0;
      run(frame, 2000, dt, () => {
        most = Math.max(most, Math.abs(frame.state.speeds[0]!));
      });
      return most;
    };
    expect(largest(still.dt_max_semi_implicit * 0.99)).toBeLessThan(0.2);
    expect(largest(still.dt_max_semi_implicit * 1.01)).toBeGreaterThan(1);
  });
});

describe('slip stiffness r^2 C / (J V) does not limit the step', () => {
  test.each(rows)(
    'at $V m/s, where explicit Euler may take $dt_max_explicit_euler s',
    ({ V, lam }) => {
      const frame = wheelOnHeavyBody(V);
      frame.state.speeds[0] = (V / r) * 1.02;
      const slip = () => Math.abs(frame.state.speeds[0]! * r - V) / V;
      let most = 0;
      run(frame, 3000, 1e-3, () => {
        most = Math.max(most, slip());
      });
      expect(most).toBeLessThan(0.03);
      // Where the contact rolls on by several relaxation lengths, the slip is gone.
      if (3 * V > 10 * still.sigma) expect(slip()).toBeLessThan(1e-3);
      expect(lam).toBeCloseTo((r * r * stiffness) / (J * V), 6);
    },
  );
});

describe('relaxation', () => {
  test.each([
    { lengths: 1, share: 0.63212 },
    { lengths: 2.9957, share: 0.95 },
  ])('$share of the side force has built up after $lengths sigma', ({ lengths, share }) => {
    const frame = wheelOnHeavyBody(1);
    frame.state.body[VY] = 0.01;
    measureContacts(frame);
    const steps = 200;
    frame.span[1] = (lengths * still.sigma) / steps;
    for (let i = 0; i < steps; i++) deflectTyres(frame);
    const steady = -0.01 * still.sigma;
    expect(frame.state.deflection[4]! / steady).toBeCloseTo(share, 4);
  });

  test.each([
    { kappa: 0.1, alpha: 0.1 },
    { kappa: -0.2, alpha: 0.1 },
    { kappa: 5, alpha: 0.3 },
    { kappa: -0.7, alpha: -0.1 },
  ])('settles at the theoretical slip: kappa $kappa, alpha $alpha', ({ kappa, alpha }) => {
    const frame = wheelOnHeavyBody(1);
    frame.state.body[VY] = -Math.tan(alpha);
    frame.state.speeds[0] = (1 + kappa) / r;
    measureContacts(frame);
    frame.span[1] = 0.001;
    for (let i = 0; i < 4000; i++) deflectTyres(frame);
    const { deflection } = frame.state;
    expect(deflection[0]! / still.sigma).toBeCloseTo(kappa / (1 + kappa), 9);
    expect(deflection[4]! / still.sigma).toBeCloseTo(Math.tan(alpha) / (1 + kappa), 9);
  });
});

describe('the tests’ own Runge-Kutta reference', () => {
  test.each(published.convergence_harmonic_t1)('harmonic at t = 1 in $N steps', ({ N, h, rk4 }) => {
    const end = integrate((x) => [x[1]!, -x[0]!], [1, 0], N, h);
    const error = Math.hypot(end[0]! - Math.cos(1), end[1]! + Math.sin(1));
    expect(error / rk4).toBeCloseTo(1, 2);
  });

  test('its amplification factor is that of order 4', () => {
    for (const [z, factor] of Object.entries(published.rk4.values)) {
      const end = integrate((x) => [Number(z) * x[0]!], [1], 1, 1);
      expect(end[0]).toBeCloseTo(factor, 10);
    }
  });
});
