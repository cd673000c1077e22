import { describe, expect, test } from 'vitest';
import { In, inputWidth } from '../../harness/replay/row-layout.ts';
import type { SimulatedFault } from '../../harness/simulate/fault-span.ts';
import { type SimulationResult, simulate } from '../../harness/simulate/simulate.ts';
import { State } from '../../lib/index.ts';
import { referenceCar } from '../plant/reference-car.ts';
import { referenceDrive, scripted } from './drives.ts';

const STRAIGHT = scripted(4, (t, sticks) => {
  sticks.throttle = 0.6 * Math.min(t, 1);
});

function drive(fault: SimulatedFault, fromS = 2, toS = Infinity): SimulationResult {
  const plant = {
    ...referenceCar('grippy'),
    sensors: { current: { step: 1, noise: 5, offset: 0, delay: 0, dropout: 0 } },
  };
  const faults = [{ fault, fromS, toS }];
  return simulate(referenceDrive('grippy', 0, { plant, manoeuvre: STRAIGHT, faults }));
}

const at = ({ trace }: SimulationResult, seconds: number) => trace.t.findIndex((t) => t >= seconds);

describe('faults in a simulated drive', () => {
  test('a lost link ends a drive after the hold time, for good while the stick is forward', () => {
    const result = drive({ kind: 'linkLost' }, 2, 3);
    const { trace, rows } = result;
    expect(trace.state[at(result, 2.2)]).toBe(State.DRIVING);
    const stopping = trace.state.indexOf(State.STOPPING);
    expect(trace.t[stopping]!).toBeGreaterThan(2.25);
    expect(trace.t[stopping]!).toBeLessThan(2.4);
    expect(trace.state.at(-1)).toBe(State.LOCKED);
    expect(trace.drive[0]!.at(-1)).toBe(0);
    const age = rows.inputs[at(result, 2.9) * inputWidth(rows.motors) + In.AGE]!;
    expect(age).toBeGreaterThan(850);
    expect(rows.inputs[(rows.count - 1) * inputWidth(rows.motors) + In.AGE]!).toBeLessThan(60);
  });

  test('a dead motor draws no current, from its time on, and the other does', () => {
    const result = drive({ kind: 'deadMotor', motor: 0 });
    const { current } = result.trace;
    const [before, after] = [at(result, 1.99), at(result, 2.05)];
    expect(current[0]![before]!).toBeGreaterThan(0.02);
    expect(current[0]!.subarray(after).every((amperes) => amperes === 0)).toBe(true);
    expect(current[1]![after]!).toBeGreaterThan(0.02);
  });

  test('a fault with an end heals', () => {
    const result = drive({ kind: 'deadMotor', motor: 0 }, 2, 2.5);
    const { current } = result.trace;
    expect(current[0]![at(result, 2.3)]).toBe(0);
    expect(current[0]![at(result, 2.6)]!).toBeGreaterThan(0.02);
  });

  test('a jammed wheel slides; a wheel whose shaft slipped turns no faster than the floor', () => {
    const jammed = drive({ kind: 'jammedWheel', wheel: 1 });
    expect(jammed.trace.slipRatio[1]![at(jammed, 2.05)]).toBeCloseTo(-1, 5);
    const slipped = drive({ kind: 'slippedShaft', wheel: 1 });
    const during = at(slipped, 2.5);
    const { current, slipRatio } = slipped.trace;
    expect(slipRatio[1]![during]!).toBeLessThanOrEqual(0);
    // The shaft itself still feeds the front differential, so the front goes on pulling.
    expect(slipRatio[2]![during]!).toBeGreaterThan(0);
    expect(current[1]![during]!).toBeLessThan(0.9 * current[0]![during]!);
  });

  test('a lost front drive: the rear drives, the front rolls (common practice, no source)', () => {
    const { trace, ...rest } = drive({ kind: 'lostDrive', constraint: 'frontDrive' });
    const after = at({ trace, ...rest }, 3);
    expect(trace.slipRatio[0]![after]!).toBeGreaterThan(0);
    expect(trace.slipRatio[2]![after]!).toBeLessThanOrEqual(0);
    expect(trace.speed.at(-1)!).toBeGreaterThan(1);
  });

  test('a frozen sensor repeats itself to the core, while the current goes on changing', () => {
    const result = drive({ kind: 'frozenSensor', sensor: 'current', index: 1 });
    const { rows, trace } = result;
    const width = inputWidth(rows.motors);
    const from = at(result, 2.02);
    const seen = new Set<number>();
    const others = new Set<number>();
    for (let row = from; row < rows.count; row++) {
      seen.add(rows.inputs[row * width + In.CURRENT + 1]!);
      others.add(rows.inputs[row * width + In.CURRENT]!);
    }
    expect(seen.size).toBe(1);
    expect(others.size).toBeGreaterThan(5);
    expect(new Set(trace.current[1]!.subarray(from)).size).toBeGreaterThan(5);
  });

  test('faults of a manoeuvre and those asked for are there together', () => {
    const plant = referenceCar('grippy');
    const manoeuvre = {
      ...STRAIGHT,
      faults: () => [{ atS: 1, faults: [{ kind: 'deadMotor' as const, motor: 0 }] }],
    };
    const faults = [{ fault: { kind: 'deadMotor' as const, motor: 1 }, fromS: 2, toS: 2.5 }];
    const result = simulate(referenceDrive('grippy', 0, { plant, manoeuvre, faults }));
    const { current } = result.trace;
    expect(current[0]![at(result, 1.5)]).toBe(0);
    expect(current[1]![at(result, 1.5)]!).toBeGreaterThan(0);
    expect(current[0]![at(result, 2.3)]! + current[1]![at(result, 2.3)]!).toBe(0);
    expect(current[0]![at(result, 2.7)]).toBe(0);
    expect(current[1]![at(result, 2.7)]!).toBeGreaterThan(0);
  });
});
