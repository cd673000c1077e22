import { describe, expect, it } from 'vitest';
import { Cause, Flag, MISSING, S, State, V } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';
import { createArmedBench, pulse } from './bench.ts';

/** Current of a motor that turns: R = 500 mOhm, 7400 mV; `speed` in permille of the free speed. */
function current(command: number, speed: number): number {
  return Math.round((7400 * (command - speed)) / 500);
}

describe('the current ceiling', () => {
  it('lets a held motor have limit * R / V: 5000 mA * 500 mOhm / 7400 mV = 337 permille', () => {
    const bench = createArmedBench(plainConstants({ vehicle: { [V.STALL_MS]: 0 } }));
    bench.step(0, { throttleUs: pulse(1000) });
    for (let n = 0; n < 60; n++) {
      const [left, right] = bench.outputs.drive as [number, number];
      bench.step(1, { currentMa: [current(left, 0), current(right, 0), 0, 0] });
    }
    expect(bench.outputs.drive.slice(0, 2)).toEqual([337, 337]);
    expect(bench.outputs.flags & Flag.CURRENT_LIMIT).toBe(Flag.CURRENT_LIMIT);
  });

  it('lets one that turns have as much more as its speed takes, and lowers both alike', () => {
    const bench = createArmedBench(plainConstants({ vehicle: { [V.STALL_MS]: 0 } }));
    bench.step(0, { throttleUs: pulse(1000) });
    for (let n = 0; n < 80; n++) {
      const [left, right] = bench.outputs.drive as [number, number];
      bench.step(1, { currentMa: [current(left, 300), current(right, 500), 0, 0] });
    }
    // 300 + 337.8 for the left motor; the right one could have more.
    expect(bench.outputs.drive[0]).toBe(637);
    expect(bench.outputs.drive[1]).toBe(637);
  });

  it('counts a current by the direction that a motor at rest is about to take', () => {
    // A car that rolls forward with the motors at zero: its current brakes, the way back adds.
    const bench = createArmedBench(plainConstants({}));
    const { drive } = bench.step(1, {
      throttleUs: pulse(-1000),
      currentMa: [-5000, -5000, 0, 0],
    });
    expect(drive.slice(0, 2)).toEqual([0, 0]);
    const other = createArmedBench(plainConstants({}));
    const forward = other.step(1, { throttleUs: pulse(1000), currentMa: [-5000, -5000, 0, 0] });
    expect(forward.drive.slice(0, 2)).toEqual([20, 20]);
  });

  it('takes a command over it down at the stop rate, even if the stick asks for less still', () => {
    const bench = createArmedBench(plainConstants({ setups: [{ [S.FALL]: 500 }] }));
    bench.step(60, { throttleUs: pulse(1000) });
    const { drive } = bench.step(1, { throttleUs: pulse(0), currentMa: [9000, 9000, 0, 0] });
    expect(drive.slice(0, 2)).toEqual([950, 950]);
  });
});

describe('a stalled motor', () => {
  /** Ticks with stall current until the core stops by itself. */
  function ticksToStop(ma: (command: number, n: number) => number, vehicle = {}): number {
    const bench = createArmedBench(plainConstants({ vehicle }));
    // (370 - 100) / 0.9 = 300 permille; at rest 4440 mA.
    bench.step(40, { throttleUs: pulse(370) });
    let n = 0;
    while (bench.outputs.state === State.DRIVING && n < 500) {
      bench.step(1, { currentMa: [ma(bench.outputs.drive[0]!, n), 0, 0, 0] });
      n++;
    }
    if (n < 500) expect(bench.outputs.cause).toBe(Cause.STALLED);
    return n;
  }

  it('is stopped after STALL_MS: 40 ticks of 10 ms, and the next one stops', () => {
    expect(ticksToStop((command) => current(command, 0))).toBe(41);
  });

  it('is told by 800 permille of the current at rest', () => {
    expect(ticksToStop((command) => Math.ceil(0.8 * current(command, 0)))).toBe(41);
    expect(ticksToStop((command) => Math.floor(0.8 * current(command, 0)) - 1)).toBe(500);
  });

  it('is told when it is warm: copper 100 K above ambient draws 1 / 1.39 of it', () => {
    // Nothing flows off, so that the winding stays as warm as it starts.
    const warm = { [V.WINDING_MJ_K]: 10000000, [V.WINDING_MW_K]: 1, [V.COPPER_PPM_K]: 3900 };
    const heat = { [V.HEAT_WARN_K]: 150, [V.HEAT_LIMIT_K]: 200, [V.HEAT_START_K]: 100 };
    const cold = { ...warm, ...heat, [V.COPPER_PPM_K]: 0 };
    const ma = (command: number) => Math.ceil(current(command, 0) / 1.39);
    expect(ticksToStop(ma, { ...warm, ...heat })).toBe(41);
    expect(ticksToStop(ma, cold)).toBe(500);
  });

  it('is forgiven as fast as it was counted', () => {
    // Three ticks of stall, one without: it takes about twice as long.
    const ticks = ticksToStop((command, n) => (n % 4 === 3 ? 0 : current(command, 0)));
    expect(ticks).toBeGreaterThan(75);
    expect(ticks).toBeLessThan(83);
    expect(ticksToStop((command, n) => (n % 2 === 0 ? 0 : current(command, 0)))).toBe(500);
  });

  it('is one that is commanded: a sensor that is off by more than STALL_MIN_MA is no stall', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(200, { currentMa: [600, 600, 0, 0] });
    expect(bench.outputs.state).toBe(State.READY);
  });
});

describe('a current that is not measured', () => {
  it('brings the blind cap', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(60, { throttleUs: pulse(1000) });
    bench.step(30, { currentMa: [0, MISSING, 0, 0] });
    expect(bench.outputs.drive.slice(0, 2)).toEqual([300, 300]);
    expect(bench.outputs.flags & Flag.SENSOR_LOST).toBe(Flag.SENSOR_LOST);
  });

  it('goes on heating by the share of the ceiling, or by the current at rest without one', () => {
    // 300 permille of 5000 mA: 1.5^2 * 0.5 = 1.125 W heat 0.1 J/K by 11 K/s; 100 K take 9 s.
    const heat = { [V.WINDING_MJ_K]: 100, [V.WINDING_MW_K]: 1 };
    for (const [limit, least, most] of [
      [5000, 800, 1100],
      // 300 permille of 14.8 A: 9.9 W, 99 K/s.
      [0, 60, 130],
    ] as const) {
      const bench = createArmedBench(
        plainConstants({ vehicle: { ...heat, [V.CURRENT_LIMIT_MA]: limit } }),
      );
      let ticks = 0;
      bench.inputs.currentMa = [MISSING, MISSING, 0, 0];
      while (bench.step(1, { throttleUs: pulse(1000) }).cause === Cause.NONE && ticks < 2000) {
        // From 60 K on heat leaves less than the blind cap; what is left heats less.
        bench.inputs.currentMa = [MISSING, MISSING, 0, 0];
        ticks++;
        if (bench.outputs.limit < 200) break;
      }
      expect(ticks).toBeGreaterThan(least * 0.5);
      expect(ticks).toBeLessThan(most);
    }
  });
});
