import { describe, expect, test } from 'vitest';
import { createDrive } from '../../harness/metrics/drive.ts';
import { findLag } from '../../harness/metrics/find-lag.ts';
import { findStepResponse, type StepResponse } from '../../harness/metrics/find-step-response.ts';
import { createNoise } from '../../harness/plant/noise.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

/** When the steering moves, s; the tick before it is the last without. */
const STEP = 1;
const STEADY = { fromS: 7, toS: 8 };
const ANGLE = 0.1;

/** Response of a yaw rate `r(t)` to a step at 1 s. */
function responseTo(r: (t: number) => number, tick: number, rise = 0): StepResponse {
  const trace = traceOf(
    (at) => {
      const t = at - STEP;
      const share = rise === 0 ? Number(t >= 0) : Math.min(Math.max(t / rise, 0), 1);
      return { steerAngle: ANGLE * share, yawRate: t < 0 ? 0 : r(t) };
    },
    0,
    STEADY.toS,
    tick,
  );
  const manoeuvre = sampleManoeuvre({ actionS: () => STEP, steady: () => STEADY });
  const found = findStepResponse(createDrive(trace, manoeuvre, SAMPLE_CAR), trace.yawRate);
  if (typeof found === 'string') throw new Error(found);
  return found;
}

/** Step response of second order, closed form. */
function secondOrder(natural: number, damping: number): (t: number) => number {
  const damped = natural * Math.sqrt(1 - damping ** 2);
  return (t) =>
    1 -
    Math.exp(-damping * natural * t) *
      (Math.cos(damped * t) + ((damping * natural) / damped) * Math.sin(damped * t));
}

describe('what noise does to the overshoot', () => {
  /** Yaw rate that a receiver's noise makes tremble by a standard deviation of 0.6 %. */
  const trembling = (r: (t: number) => number) => {
    const noise = createNoise(11);
    return (t: number) => r(t) * (1 + 0.006 * noise.normal());
  };
  const overshootOf = (r: (t: number) => number) => {
    const found = responseTo(r, 0.01);
    return { ...found, isSeen: found.overshoot >= found.tremble };
  };

  test('a car that never swings over is not said to, though noise passes the steady value', () => {
    const found = overshootOf(trembling((t) => 1 - Math.exp(-t / 0.05)));
    expect(found.overshoot).toBeGreaterThan(0.01);
    expect(found.isSeen).toBe(false);
  });

  test('one that swings over by 16 % is', () => {
    const found = overshootOf(trembling(secondOrder(10, 0.5)));
    expect(found.isSeen).toBe(true);
    expect(Math.abs(found.overshoot - 0.163)).toBeLessThan(0.02);
  });

  test('without noise the least overshoot counts', () => {
    const found = overshootOf(secondOrder(10, 0.85));
    expect(found.overshoot).toBeLessThan(0.01);
    expect(found.isSeen).toBe(true);
  });
});

describe('response to a step of the steering, by ISO 7401 (from memory)', () => {
  // The ideal step lies between two ticks; half a tick of it is unknown.
  test.each([0.001, 0.01])(
    'first order: 90 percent after tau ln 10, no overshoot; tick %d s',
    (tick) => {
      const tau = 0.15;
      const found = responseTo((t) => 2 * (1 - Math.exp(-t / tau)), tick);
      expect(Math.abs(found.responseTime - tau * Math.LN10)).toBeLessThan(0.6 * tick);
      expect(found.overshoot).toBeLessThan(1e-9);
      expect(found.steady).toBeCloseTo(2, 6);
      expect(found.angle).toBeCloseTo(ANGLE, 12);
    },
  );

  test.each([
    [0.3, 0.001],
    [0.5, 0.001],
    [0.7, 0.001],
    [0.5, 0.01],
  ])(
    'second order, damping %d: overshoot and peak time by closed form; tick %d s',
    (zeta, tick) => {
      const natural = 12;
      const root = Math.sqrt(1 - zeta ** 2);
      const found = responseTo(secondOrder(natural, zeta), tick);
      expect(found.overshoot).toBeCloseTo(Math.exp((-Math.PI * zeta) / root), 3);
      expect(Math.abs(found.peakTime - Math.PI / (natural * root))).toBeLessThan(0.6 * tick);
    },
  );

  test('critically damped: 90 % where (1 + s) e^-s = 0.1, s = 3.88972', () => {
    const natural = 20;
    const found = responseTo((t) => 1 - (1 + natural * t) * Math.exp(-natural * t), 0.001);
    expect(Math.abs(found.responseTime - 3.88972 / natural)).toBeLessThan(0.0006);
  });

  test('time counts from half of the steering’s way: a ramp of 0.2 s takes 0.1 s off', () => {
    const tau = 0.3;
    const sudden = responseTo((t) => 1 - Math.exp(-t / tau), 0.001);
    const ramped = responseTo((t) => 1 - Math.exp(-t / tau), 0.001, 0.2);
    expect(sudden.responseTime - ramped.responseTime).toBeCloseTo(0.1, 3);
  });

  test('a value that was not 0 before counts from where it was', () => {
    const tau = 0.15;
    const trace = traceOf(
      (t) => ({
        steerAngle: t >= STEP ? ANGLE : -ANGLE,
        yawRate: t < STEP ? -1 : 1 - 2 * Math.exp((STEP - t) / tau),
      }),
      0,
      8,
      0.001,
    );
    const manoeuvre = sampleManoeuvre({ actionS: () => STEP, steady: () => STEADY });
    const found = findStepResponse(createDrive(trace, manoeuvre, SAMPLE_CAR), trace.yawRate);
    const { responseTime } = found as StepResponse;
    expect(Math.abs(responseTime - tau * Math.LN10)).toBeLessThan(0.0006);
  });

  test('says why where there is nothing to read', () => {
    const still = traceOf(() => ({}), 0, 8);
    const manoeuvre = sampleManoeuvre({ actionS: () => STEP, steady: () => STEADY });
    const drive = createDrive(still, manoeuvre, SAMPLE_CAR);
    expect(findStepResponse(drive, still.yawRate)).toContain('did not move');
    const short = traceOf((t) => ({ steerAngle: t }), 0, 5);
    const early = createDrive(short, manoeuvre, SAMPLE_CAR);
    expect(findStepResponse(early, short.yawRate)).toContain('ended before');
    const deaf = traceOf((t) => ({ steerAngle: t >= STEP ? 1 : 0 }), 0, 8);
    const unmoved = createDrive(deaf, manoeuvre, SAMPLE_CAR);
    expect(findStepResponse(unmoved, deaf.yawRate)).toContain('did not follow');
  });
});

describe('lag behind one sine of the steering', () => {
  test.each([1, -1])(
    'is the shift between the crests, and the gain their ratio; side %d',
    (side) => {
      const wave = (t: number) => (t > 0 && t < 0.5 ? side * Math.sin(4 * Math.PI * t) : 0);
      const trace = traceOf(
        (t) => ({ steerAngle: 0.05 * wave(t - 1), yawRate: 0.6 * wave(t - 1.043) }),
        0,
        3,
      );
      const manoeuvre = sampleManoeuvre({ actionS: () => 1 });
      const found = findLag(createDrive(trace, manoeuvre, SAMPLE_CAR));
      if (typeof found === 'string') throw new Error(found);
      // Between ticks of 10 ms by parabola.
      expect(Math.abs(found.time - 0.043)).toBeLessThan(0.0005);
      expect(Math.abs(found.gain / 12 - 1)).toBeLessThan(0.002);
    },
  );
});
