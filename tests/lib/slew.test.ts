import { describe, expect, it } from 'vitest';
import { Layout, MISSING, S, TABLE_POINTS, V } from '../../lib/index.ts';
import { plainConstants } from '../limits/plain-constants.ts';
import { createArmedBench, pulse } from './bench.ts';

describe('a motor reaches its goal in the time its rate gives', () => {
  it.each([
    // permille/s, ms: 1000 permille take 1000 / rate seconds.
    ['as a rule', 2000, 10],
    ['the slowest rise, at the shortest tick: 0.05 permille a tick', 50, 1],
    ['a rise that is no whole permille a tick', 137, 7],
  ])('%s', (_name, rise, tickMs) => {
    const constants = plainConstants({
      vehicle: { [V.TICK_MS]: tickMs },
      setups: [{ [S.RISE]: rise }],
    });
    const bench = createArmedBench(constants);
    bench.step(0, { throttleUs: pulse(1000) });
    const ticks = Math.ceil((1e6 / rise / tickMs) * (1 - 1e-9));
    for (let n = 1; n <= ticks; n++) {
      const { drive } = bench.step();
      const want = Math.min(1000, (rise * tickMs * n) / 1000);
      expect(Math.abs(drive[0]! - want)).toBeLessThanOrEqual(1);
      expect(drive[1]).toBe(drive[0]);
    }
    expect(bench.step().drive[0]).toBe(1000);
  });

  it('falls at the fall rate, and stops at the stop rate', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(60, { throttleUs: pulse(1000) });
    for (let n = 1; n <= 25; n++) {
      expect(bench.step(1, { throttleUs: pulse(0) }).drive[0]).toBe(1000 - 40 * n);
    }
    const stopped = createArmedBench(plainConstants({ setups: [{ [S.HOLD_MS]: 0 }] }));
    stopped.step(60, { throttleUs: pulse(1000) });
    for (let n = 1; n <= 20; n++) {
      expect(stopped.step(1, { throttleUs: MISSING }).drive[0]).toBe(1000 - 50 * n);
    }
  });

  it('changes direction through zero and a dwell', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(60, { throttleUs: pulse(400) });
    const drive: number[] = [];
    for (let n = 0; n < 30; n++) drive.push(bench.step(1, { throttleUs: pulse(-1000) }).drive[0]!);
    // (400 - 100) / 0.9 = 333.3 by 40 a tick: zero in the ninth tick, then 100 ms of rest.
    const zero = drive.indexOf(0);
    expect(zero).toBe(8);
    expect(drive.slice(zero, zero + 10)).toEqual(Array(10).fill(0));
    expect(drive.slice(zero + 10, zero + 13)).toEqual([-20, -40, -60]);
  });
});

describe('the motors keep the ratio of the split', () => {
  const setup = { [S.CUT_CEILING]: 500 };

  it('in a launch and in a stop in a bend', () => {
    const bench = createArmedBench(plainConstants({ setups: [setup] }));
    // Cut 0.8 * 500 = 400 permille.
    bench.step(20, { steerUs: pulse(500) });
    for (let n = 0; n < 60; n++) {
      const { drive } = bench.step(1, { throttleUs: pulse(1000) });
      expect(Math.abs(drive[0]! - 0.6 * drive[1]!)).toBeLessThanOrEqual(1);
    }
    expect(bench.outputs.drive[1]).toBe(1000);
    for (let n = 0; n < 50; n++) {
      const { drive } = bench.step(1, { throttleUs: MISSING });
      expect(Math.abs(drive[0]! - 0.6 * drive[1]!)).toBeLessThanOrEqual(1);
    }
    expect(bench.outputs.drive[1]).toBe(0);
  });
});

describe('a motor that changes alone arrives', () => {
  const cut = Array.from({ length: TABLE_POINTS }, (_, i) => [
    S.CUT_TABLE + i,
    i === 0 ? 0 : 10000,
  ]);

  it('at zero, while the other goes on', () => {
    const setup = { [S.CUT_CEILING]: 1000, ...Object.fromEntries(cut) };
    const bench = createArmedBench(plainConstants({ setups: [setup] }));
    bench.step(60, { throttleUs: pulse(1000) });
    bench.step(2, { steerUs: pulse(1000) });
    // 1000 by 40 a tick.
    expect(bench.step(24).drive.slice(0, 2)).toEqual([0, 1000]);
  });

  it('in the other direction, with tracks: the inside turns round while the other goes on', () => {
    const constants = plainConstants({
      vehicle: { [V.LAYOUT]: Layout.TRACKED },
      setups: [{ [S.CUT_CEILING]: 0, [S.PIVOT]: 800, [S.PIVOT_FADE]: 1000 }],
    });
    const bench = createArmedBench(constants);
    // (370 - 100) / 0.9 = 300 permille.
    bench.step(60, { throttleUs: pulse(370) });
    expect(bench.outputs.drive.slice(0, 2)).toEqual([300, 300]);
    // Pivot 800 * (1 - 0.3) = 560: -260 and 860. It falls for 8 ticks, rests for 10 and rises by
    // 20 * 260 / 860 a tick for 43; the wheel itself takes 10.
    expect(bench.step(75, { steerUs: pulse(1000) }).drive.slice(0, 2)).toEqual([-260, 860]);
  });

  it('without a dwell for a remnant that never left the gate', () => {
    const constants = plainConstants({
      vehicle: { [V.LAYOUT]: Layout.TRACKED },
      setups: [{ [S.PIVOT]: 800, [S.PIVOT_FADE]: 1000, [S.STEER_SMOOTHING_MS]: 50 }],
    });
    const bench = createArmedBench(constants);
    bench.step(40, { steerUs: pulse(1000) });
    bench.step(100, { steerUs: pulse(0) });
    const { drive } = bench.step(1, { throttleUs: pulse(1000) });
    // What is left of the pivot, some 1e-5 permille, may still show in the last digit.
    expect(drive[0]).toBeGreaterThanOrEqual(19);
    expect(drive[1]).toBe(20);
  });
});
