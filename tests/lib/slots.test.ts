import { describe, expect, it } from 'vitest';
import { setupCrc } from '../../harness/check/mirror.ts';
import { Flag, MISSING, S, STEER_HOLD } from '../../lib/index.ts';
import { changed, plainConstants } from '../limits/plain-constants.ts';
import { createBench, pulse } from './bench.ts';

const fast = { [S.STEER_RATE]: 100000 };
const twoSlots = plainConstants({ setups: [fast, { ...fast, [S.LEFT_LIMIT]: 400 }] });

describe('a change of slot', () => {
  it('fades along a line, 1000 to 400 in 300 ms, 20 a tick, at most eight ticks behind', () => {
    const bench = createBench(twoSlots);
    bench.step(5, { steerUs: pulse(1000) });
    expect(bench.outputs).toMatchObject({ steer: 1000, slot: 0 });
    for (let n = 1; n <= 29; n++) {
      const { steer, slot, flags } = bench.step(1, { slot: 1 });
      expect(steer).toBeLessThanOrEqual(1000 - 20 * (n - 8));
      expect(steer).toBeGreaterThanOrEqual(1000 - 20 * n - 1);
      expect([slot, flags & Flag.FADING]).toEqual([1, Flag.FADING]);
    }
    expect(bench.step().steer).toBe(400);
    expect(bench.outputs.flags & Flag.FADING).toBe(0);
    expect(bench.step(50).steer).toBe(400);
  });

  it('that is taken back half-way fades back from where it was, without a jump', () => {
    const bench = createBench(twoSlots);
    bench.step(5, { steerUs: pulse(1000) });
    bench.step(15, { slot: 1 });
    const half = bench.outputs.steer;
    expect(Math.abs(half - 780)).toBeLessThanOrEqual(81);
    let last = half;
    for (let n = 1; n <= 29; n++) {
      const { steer } = bench.step(1, { slot: 0 });
      // By a thirtieth of the way a tick, in steps of eight at most.
      expect(Math.abs(steer - last)).toBeLessThan(90);
      last = steer;
    }
    expect(bench.step(2).steer).toBe(1000);
  });

  it('that flickers between two others takes their constants all the same', () => {
    const others = [400, 300].map((limit) => ({ ...fast, [S.LEFT_LIMIT]: limit }));
    const bench = createBench(plainConstants({ setups: [fast, ...others] }));
    bench.step(5, { steerUs: pulse(1000) });
    for (let n = 0; n < 600; n++) bench.step(1, { slot: 1 + (n % 2) });
    // It comes the nearer the longer it flickers, and never gets quite there.
    expect(bench.outputs.steer).toBeLessThan(410);
    expect(bench.outputs.steer).toBeGreaterThanOrEqual(300);
  });

  it.each([2, -1, MISSING, 0.5, Number.NaN])('to %s, which is not on board, is none', (slot) => {
    const bench = createBench(twoSlots);
    bench.step(5, { slot });
    expect(bench.outputs).toMatchObject({ slot: 0, flags: 0 });
    // The slot in force is written back, for a recorder.
    expect(bench.inputs.slot).toBe(0);
  });

  it('without a fade time takes effect at once', () => {
    const sudden = { ...fast, [S.LEFT_LIMIT]: 400, [S.FADE_MS]: 0 };
    const bench = createBench(plainConstants({ setups: [fast, sudden] }));
    bench.step(5, { steerUs: pulse(1000) });
    expect(bench.step(1, { slot: 1 })).toMatchObject({ steer: 400, flags: 0 });
  });

  it('does not fade while the clock stands still', () => {
    const bench = createBench(twoSlots);
    bench.step(5, { steerUs: pulse(1000) });
    bench.inputs.timeMs -= 10;
    expect(bench.step(1, { slot: 1 })).toMatchObject({ steer: 1000, slot: 1 });
  });

  it('never turns to a position between holding still and another', () => {
    for (const [before, after, want] of [
      [STEER_HOLD, 0, 0],
      [0, STEER_HOLD, 500],
    ] as const) {
      const setups = [
        { ...fast, [S.LOSS_STEER]: before, [S.HOLD_MS]: 0 },
        { ...fast, [S.LOSS_STEER]: after, [S.HOLD_MS]: 0 },
      ];
      const bench = createBench(plainConstants({ setups }));
      bench.step(5, { steerUs: pulse(500) });
      bench.step(10, { slot: 1 });
      expect(bench.step(1, { steerUs: MISSING }).steer).toBe(want);
    }
  });
});

describe('a setup that is offered', () => {
  const [setup] = twoSlots.setups as [number[], number[]];
  const softer = changed(setup, { [S.LEFT_LIMIT]: 700 });

  it('for the slot in force fades in', () => {
    const bench = createBench(twoSlots);
    bench.step(5, { steerUs: pulse(1000) });
    expect(bench.controller.offerSetup(0, softer, setupCrc(softer))).toBe(1);
    expect(Math.abs(bench.step(15).steer - 890)).toBeLessThanOrEqual(41);
    expect(bench.step(20).steer).toBe(700);
  });

  it('for another slot waits until that is chosen', () => {
    const bench = createBench(twoSlots);
    bench.step(5, { steerUs: pulse(1000) });
    expect(bench.controller.offerSetup(1, softer, setupCrc(softer))).toBe(1);
    expect(bench.step(40).steer).toBe(1000);
    expect(bench.step(40, { slot: 1 }).steer).toBe(700);
  });

  it('is copied: what becomes of the list later is of no account', () => {
    const bench = createBench(twoSlots);
    const list = [...softer];
    bench.controller.offerSetup(0, list, setupCrc(list));
    list.fill(0);
    expect(bench.step(60, { steerUs: pulse(1000) }).steer).toBe(700);
  });

  it('and refused is reported until one is loaded', () => {
    const bench = createBench(twoSlots);
    bench.step();
    expect(bench.controller.offerSetup(0, softer, 12345)).toBe(0);
    expect(bench.step(10).flags).toBe(Flag.SETUP_REFUSED);
    expect(bench.controller.offerSetup(0, softer, setupCrc(softer))).toBe(1);
    expect(bench.step(60).flags).toBe(0);
  });
});
