import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { UserError } from '../../harness/problems.ts';
import { In, inputWidth, Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { type SimulationResult, simulate } from '../../harness/simulate/simulate.ts';
import { S, State } from '../../lib/index.ts';
import { referenceCar } from '../plant/reference-car.ts';
import { FROM_REST, referenceConstants, referenceDrive, scripted } from './drives.ts';

const SENSED: PlantDescription = {
  ...referenceCar('slippery'),
  sensors: {
    supply: { step: 20, noise: 15, offset: 0, delay: 0, dropout: 0 },
    gyro: { step: 1, noise: 10, offset: 0, delay: 0.005, dropout: 0 },
    current: { step: 10, noise: 20, offset: 0, delay: 0, dropout: 0.01 },
  },
};

/** Every number of a drive, as one text. */
function bits({ trace, rows }: SimulationResult): string {
  const columns = Object.values(trace)
    .flat()
    .flatMap((column) => (typeof column === 'number' ? [column] : [...column]));
  return JSON.stringify([columns, [...rows.inputs], [...rows.outputs]]);
}

describe('simulate', () => {
  const drive = (seed: number) =>
    simulate(referenceDrive('slippery', 0.1, { plant: SENSED, seed, manoeuvre: SHORT }));
  const SHORT = { ...FROM_REST, durationS: () => 1.5 };

  test('the same options give the same bits, another seed gives others', () => {
    const first = bits(drive(7));
    expect(bits(drive(7))).toBe(first);
    expect(bits(drive(8))).not.toBe(first);
  });

  test('ticks come at their period, late by the jitter at most, and never run backwards', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 5 }), fc.integer(), (tickJitterMs, seed) => {
        const { rows } = simulate(
          referenceDrive('slippery', 0, { manoeuvre: SHORT, seed, link: { tickJitterMs } }),
        );
        const times = timesOf(rows);
        times.forEach((time, i) => {
          expect(time - 10 * i).toBeGreaterThanOrEqual(0);
          expect(time - 10 * i).toBeLessThanOrEqual(tickJitterMs);
          if (i > 0) expect(time).toBeGreaterThan(times[i - 1]!);
        });
      }),
      { numRuns: 20 },
    );
  });

  test('the car stands still, locked and then ready, until the manoeuvre begins at 0 s', () => {
    const { trace, leadInS, rows } = drive(1);
    const begin = trace.t.findIndex((t) => t >= 0);
    expect(trace.t[0]).toBeCloseTo(-leadInS, 2);
    expect(1000 * leadInS).toBeGreaterThan(referenceConstants(0).setups[0]![S.NEUTRAL_MS]!);
    expect(trace.state[0]).toBe(State.LOCKED);
    expect(trace.state[begin - 1]).toBe(State.READY);
    for (const column of [trace.x, trace.y, trace.yaw, trace.speed])
      expect(column.subarray(0, begin + 1).every((value) => value === 0)).toBe(true);
    const out = outputWidth(rows.motors);
    for (let row = 0; row < begin; row++)
      expect(rows.outputs[row * out + Out.DRIVE]! + rows.outputs[row * out + Out.DRIVE + 1]!).toBe(
        0,
      );
    expect(trace.speed.at(-1)!).toBeGreaterThan(1);
  });

  test('commands are held between ticks: the current follows the duty of the tick before', () => {
    const step = scripted(1, (t, sticks) => {
      sticks.throttle = t >= 0.5 ? 1 : 0;
    });
    const { trace } = simulate(referenceDrive('grippy', 0, { manoeuvre: step }));
    const first = trace.drive[0]!.findIndex((command) => command > 0);
    expect(trace.current[0]![first]).toBe(0);
    expect(trace.current[0]![first + 1]!).toBeGreaterThan(0);
  });

  test('what the core is handed are integers, as sensors give them', () => {
    const { rows } = drive(3);
    const width = inputWidth(rows.motors);
    const battery = rows.inputs.filter((_, i) => i % width === In.BATTERY);
    expect(battery.subarray(0, rows.count).every((mv) => mv % 20 === 0)).toBe(true);
    expect(battery[0]).toBeGreaterThan(7900);
    const missing = rows.inputs.filter(
      (_, i) => i % width === In.CURRENT && rows.inputs[i] === -32768,
    );
    expect(missing.length).toBeGreaterThan(0);
  });

  test('mirrored sticks without noise give the mirrored drive, to the last bit', () => {
    const link = { noiseUs: 0 };
    const left = simulate(referenceDrive('slippery', 0.12, { link }));
    const turned = scripted(6, (t, sticks) => {
      sticks.steer = -1;
      sticks.throttle = Math.min(t, 1);
    });
    const right = simulate(referenceDrive('slippery', 0.12, { link, manoeuvre: turned }));
    expect([...right.trace.x]).toEqual([...left.trace.x]);
    expect([...right.trace.y]).toEqual([...left.trace.y].map((y) => -y + 0));
    expect([...right.trace.drive[0]!]).toEqual([...left.trace.drive[1]!]);
  });

  test('a longer lead-in shifts the clock and nothing else', () => {
    const link = { noiseUs: 0, jitterMs: 0, tickJitterMs: 0 };
    const short = simulate(referenceDrive('slippery', 0.1, { link }));
    const long = simulate(referenceDrive('slippery', 0.1, { link, leadInS: 2 }));
    expect(long.leadInS).toBe(2);
    const from = (result: SimulationResult) =>
      result.trace.x.slice(result.trace.t.findIndex((t) => t >= 0));
    expect(from(long)).toEqual(from(short));
  });

  test('half the step changes where a car that grips ends up by less than 1 %', () => {
    const [whole, half] = [0.001, 0.0005].map((stepS) => {
      const { trace } = simulate(referenceDrive('grippy', 0.1, { stepS }));
      return Math.hypot(trace.x.at(-1)!, trace.y.at(-1)!);
    });
    expect(Math.abs(whole! - half!) / half!).toBeLessThan(0.01);
  });
});

describe('a drive that cannot go on', () => {
  const tall = { ...SENSED, body: { ...SENSED.body, cgHeight: 0.2 } };
  const grippy = referenceCar('grippy').ground;

  test('stops with time, state and likely cause, and keeps what was until then', () => {
    const plant = { ...tall, ground: grippy };
    const result = simulate(referenceDrive('grippy', 0, { plant }));
    expect(result.divergence).toMatchObject({ cause: expect.stringContaining('tips over') });
    expect(result.divergence!.time).toBeGreaterThan(0);
    expect(result.divergence!.time).toBeLessThan(4);
    const { trace } = result;
    expect(trace.t.at(-1)!).toBeLessThanOrEqual(result.divergence!.time);
    expect(trace.t.at(-1)!).toBeGreaterThan(result.divergence!.time - 0.03);
    expect(trace.x.every(Number.isFinite)).toBe(true);
    expect(result.rows.count).toBe(trace.count);
  });

  test('an impossible vehicle is refused with field and range before it drives', () => {
    const plant = { ...SENSED, body: { ...SENSED.body, mass: -1 } };
    expect(() => simulate(referenceDrive('slippery', 0, { plant }))).toThrow(UserError);
    expect(() => simulate(referenceDrive('slippery', 0, { plant }))).toThrow(
      /body\.mass: found -1, expected more than 0/,
    );
  });

  test('a fault on something the vehicle lacks is refused before it drives', () => {
    const faults = [{ fault: { kind: 'deadMotor', motor: 3 } as const, fromS: 3, toS: Infinity }];
    expect(() => simulate(referenceDrive('slippery', 0, { faults }))).toThrow(/deadMotor/);
  });
});

function timesOf({ inputs, motors, count }: SimulationResult['rows']): number[] {
  return Array.from({ length: count }, (_, i) => inputs[i * inputWidth(motors) + In.TIME]!);
}
