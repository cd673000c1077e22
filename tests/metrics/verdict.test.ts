import { describe, expect, test } from 'vitest';
import type { Manoeuvre } from '../../harness/manoeuvres/manoeuvre.ts';
import {
  computeVerdict,
  NEUTRAL_DEG,
  PLOUGH,
  ROUND_DEG,
  SPIN_DEG,
  SPIN_S,
} from '../../harness/metrics/compute-verdict.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

const RAD = Math.PI / 180;
const steady = () => ({ fromS: 2, toS: 4 });

interface Bend {
  radius: number;
  /** Degrees. */
  balance?: number;
  sideslip?: (t: number) => number;
  /** 1 = drives ahead, -1 = reverses. */
  way?: number;
}

/** Steering angle whose geometric radius at the centre of gravity is 1 m. */
const ANGLE = Math.atan(SAMPLE_CAR.wheelbase / Math.sqrt(1 - 0.09 ** 2));

/** Four seconds on a circle at 2 m/s with the wheels turned for a radius of 1 m. */
function circle({ radius, balance = 0, sideslip = () => 0, way = 1 }: Bend): Trace {
  const course = (t: number) => (2 * t) / radius;
  return traceOf(
    (t) => ({
      x: radius * Math.sin(course(t)),
      y: radius * (1 - Math.cos(course(t))),
      yaw: course(t) - sideslip(t) * RAD,
      yawRate: 2 / radius,
      vx: way * 2 * Math.cos(sideslip(t) * RAD),
      vy: 2 * Math.sin(sideslip(t) * RAD),
      ay: 4,
      balance: balance * RAD,
      steerAngle: ANGLE,
    }),
    0,
    4,
  );
}

function judge(trace: Trace, part: Partial<Manoeuvre> = { steady }) {
  return computeVerdict(trace, sampleManoeuvre(part), SAMPLE_CAR);
}

describe('the verdict on a bend', () => {
  test.each([
    { balance: NEUTRAL_DEG + 0.01, kind: 'understeer' },
    { balance: NEUTRAL_DEG - 0.01, kind: 'neutral' },
    { balance: -NEUTRAL_DEG + 0.01, kind: 'neutral' },
    { balance: -NEUTRAL_DEG - 0.01, kind: 'oversteer' },
  ])('balance $balance° is $kind', ({ balance, kind }) => {
    const verdict = judge(circle({ radius: 1, balance }));
    expect(verdict).toMatchObject({ kind, unit: '°', threshold: NEUTRAL_DEG });
    expect(verdict.value).toBeCloseTo(balance, 9);
    expect(verdict.text).toContain(Math.abs(balance).toFixed(1));
  });

  test.each([
    [5.04, 'Understeers: the front slides 5.0° more than the rear.'],
    [-5.04, 'Oversteers: the rear slides 5.0° more than the front.'],
    [0.5, 'Neutral: the front slides only 0.5° more.'],
    [-0.5, 'Neutral: the rear slides only 0.5° more.'],
    [0.04, 'Neutral: front and rear slide alike.'],
    [-0.04, 'Neutral: front and rear slide alike.'],
  ])('balance %d° reads well', (balance, text) => {
    expect(judge(circle({ radius: 1, balance })).text).toBe(text);
  });

  test('a path twice as wide as the steering asks for is ploughing, less is not', () => {
    const ploughs = judge(circle({ radius: PLOUGH + 0.01, balance: 1 }));
    expect(ploughs).toMatchObject({ kind: 'understeer', threshold: PLOUGH, unit: '' });
    expect(ploughs.value).toBeCloseTo(PLOUGH + 0.01, 6);
    expect(ploughs.text).toContain('2.0 times');
    expect(judge(circle({ radius: PLOUGH - 0.01, balance: 1 })).kind).toBe('neutral');
  });

  test('a wide path of a sliding tail is no ploughing', () => {
    expect(judge(circle({ radius: 3, balance: -5 })).kind).toBe('oversteer');
  });

  test('straight on with the wheels turned is ploughing without end', () => {
    const trace = traceOf((t) => ({ x: 2 * t, vx: 2, ay: 2, balance: 0.2, steerAngle: 0.3 }), 0, 4);
    expect(judge(trace)).toMatchObject({ kind: 'understeer', value: null });
    expect(judge(trace).text).toContain('straight on');
  });

  test('samples that hardly turn do not dilute the balance', () => {
    const trace = circle({ radius: 1, balance: 4 });
    trace.ay.fill(0.1, 0, 300);
    trace.balance.fill(0, 0, 300);
    expect(judge(trace, {})).toMatchObject({ kind: 'understeer' });
    expect(judge(trace, {}).value).toBeCloseTo(4, 9);
  });
});

describe('a spin', () => {
  const held = (angle: number, fromS: number, time: number) =>
    circle({ radius: 1, sideslip: (t) => (t >= fromS && t <= fromS + time ? angle : 5) });

  test.each([1, -1])('is 30° of sideslip for 0.3 s of the steady part, to side %d', (side) => {
    const spins = judge(held(side * (SPIN_DEG + 1), 2.5, SPIN_S + 0.02));
    expect(spins).toMatchObject({ kind: 'spin', threshold: SPIN_DEG, unit: '°' });
    expect(spins.value).toBeCloseTo(SPIN_DEG + 1, 9);
    expect(judge(held(side * (SPIN_DEG + 1), 2.5, SPIN_S - 0.03)).kind).toBe('neutral');
    expect(judge(held(side * (SPIN_DEG - 1), 2.5, 1)).kind).toBe('neutral');
  });

  test('that was caught before the steady part is none, beyond 60° it is', () => {
    expect(judge(held(SPIN_DEG + 20, 0.5, 1)).kind).toBe('neutral');
    const round = judge(held(ROUND_DEG + 1, 0.5, 0.02));
    expect(round).toMatchObject({ kind: 'spin', threshold: ROUND_DEG });
  });

  test('counts from the action on where there is no steady part', () => {
    expect(judge(held(40, 0.5, 0.5), { actionS: () => 0.2 }).kind).toBe('spin');
    expect(judge(held(40, 0.5, 0.5), { actionS: () => 1.5 }).kind).toBe('neutral');
  });

  test('is told of straight manoeuvres as well, but nothing else is', () => {
    expect(judge(held(40, 0.5, 0.5), { kind: 'straight' }).kind).toBe('spin');
    expect(judge(circle({ radius: 1, balance: 9 }), { kind: 'straight' })).toMatchObject({
      kind: 'none',
      value: null,
    });
  });

  test('is not what a reversing car does', () => {
    expect(judge(circle({ radius: 1, way: -1, sideslip: () => 3 })).kind).toBe('neutral');
  });

  test('a car that ends up tail first has spun, however it slides', () => {
    const round = circle({ radius: 1, sideslip: (t) => Math.min(90 * t, 178) });
    expect(judge(round, {})).toMatchObject({ kind: 'spin' });
    expect(judge(round, {}).value).toBeGreaterThan(170);
  });

  test('is not what a pivot turn does', () => {
    expect(judge(held(90, 0, 4), { kind: 'pivot' }).kind).toBe('none');
  });
});

test('a drive that broke off has no verdict', () => {
  expect(judge(circle({ radius: 1 }), { actionS: () => 9 })).toMatchObject({ kind: 'none' });
});
