import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Layout, S, TABLE_POINTS, V } from '../../lib/index.ts';
import { type Changes, plainConstants } from '../limits/plain-constants.ts';
import { createArmedBench, pulse } from './bench.ts';

/** Settled commands and cut for constant sticks, permille; the throttle beyond its dead band. */
function settled(demand: number, steer: number, setup: Changes, vehicle: Changes = {}) {
  const constants = plainConstants({
    vehicle,
    setups: [{ [S.THROTTLE_DEAD_BAND]: 100, ...setup }],
  });
  const stick = demand === 0 ? 0 : Math.sign(demand) * (100 + Math.abs(demand) * 0.9);
  const bench = createArmedBench(constants);
  bench.step(120, { steerUs: pulse(steer), throttleUs: pulse(stick) });
  const { drive, cut } = bench.outputs;
  return { drive: [...drive], cut };
}

function table(at: number, of: (share: number) => number): Changes {
  return Object.fromEntries(
    Array.from({ length: TABLE_POINTS }, (_, i) => [at + i, of(i / (TABLE_POINTS - 1))]),
  );
}

const demands = fc.constantFrom(-1000, -600, -200, 200, 400, 1000);
const steers = fc.integer({ min: -500, max: 500 }).map((half) => 2 * half);

describe('the inside cut', () => {
  it('interpolates its table linearly between 17 points, up to its ceiling', () => {
    const square = table(S.CUT_TABLE, (share) => Math.round(8000 * share ** 2));
    for (const steer of [0, 30, 62, 64, 500, 750, 998, 1000]) {
      const x = (steer * 16) / 1000;
      const low = Math.floor(Math.min(x, 15));
      const at = (i: number) => Math.round(8000 * (i / 16) ** 2) / 10;
      const want = at(low) + (at(low + 1) - at(low)) * (x - low);
      const { cut } = settled(400, steer, { ...square, [S.CUT_CEILING]: 600 });
      expect(cut).toBeCloseTo(Math.min(600, want), 9);
    }
  });

  it('slows the inside motor: the outside keeps the demand, or the mean does, or between', () => {
    fc.assert(
      fc.property(
        demands,
        steers,
        fc.constantFrom(0, 250, 1000),
        fc.integer({ min: 0, max: 1000 }),
        (demand, steer, meanShare, ceiling) => {
          const setup = { [S.MEAN_SHARE]: meanShare, [S.CUT_CEILING]: ceiling };
          const { drive } = settled(demand, steer, setup);
          const cut = Math.min(ceiling, 0.8 * Math.abs(steer)) / 1000;
          const outside = demand / (1 - (cut * meanShare) / 2000);
          // Saturation keeps the ratio.
          const scale = Math.min(1, 1000 / Math.abs(outside));
          const pair = [outside * (1 - cut) * scale, outside * scale];
          const want = steer > 0 ? pair : pair.reverse();
          for (const i of [0, 1]) expect(Math.abs(drive[i]! - want[i]!)).toBeLessThanOrEqual(1);
          if (steer === 0) expect(drive[0]).toBe(drive[1]);
        },
      ),
      { seed: 702, numRuns: 150 },
    );
  });

  it('is exact in reverse: the same sticks backwards give the negative commands', () => {
    for (const steer of [-1000, -300, 0, 500]) {
      const ahead = settled(600, steer, {}).drive;
      expect(settled(-600, steer, {}).drive).toEqual(ahead.map((value) => 0 - value));
    }
  });
});

describe('two pairs', () => {
  const vehicle = {
    [V.LAYOUT]: Layout.TWO_PAIRS,
    [V.MOTORS]: 4,
    ...table(V.FRONT_INSIDE, (share) => 10000 + 2000 * share),
    ...table(V.FRONT_OUTSIDE, (share) => 10000 + 800 * share),
  };

  it('drive the front pair by its path radii and its share', () => {
    const { drive } = settled(500, 500, { [S.FRONT_SHARE]: 900, [S.CUT_CEILING]: 400 }, vehicle);
    // Cut 400: rear 300 and 500; front 300 * 1.1 * 0.9 and 500 * 1.04 * 0.9.
    expect(drive).toEqual([300, 500, 297, 468]);
    expect(
      settled(500, -500, { [S.FRONT_SHARE]: 900, [S.CUT_CEILING]: 400 }, vehicle).drive,
    ).toEqual([500, 300, 468, 297]);
  });

  it('never let the inside front motor lead where the cut is less deep than the geometry', () => {
    const { drive } = settled(500, 1000, { [S.CUT_CEILING]: 0 }, vehicle);
    expect(drive).toEqual([500, 500, 540, 540]);
  });

  it('keep all four ratios where one motor would pass full command', () => {
    const { drive } = settled(1000, 500, { [S.CUT_CEILING]: 400 }, vehicle);
    // 600, 1000, 660, 1040, all divided by 1.04.
    expect(drive).toEqual([576, 961, 634, 1000]);
  });
});

describe('tracks', () => {
  const vehicle = { [V.LAYOUT]: Layout.TRACKED };
  const setup = { [S.PIVOT]: 600, [S.PIVOT_FADE]: 500, [S.CUT_CEILING]: 400 };

  it('pivot without throttle', () => {
    expect(settled(0, 1000, setup, vehicle).drive).toEqual([-600, 600, 0, 0]);
    expect(settled(0, -500, setup, vehicle).drive).toEqual([300, -300, 0, 0]);
  });

  it('fade the pivot out with throttle, and turn to the side of the stick either way', () => {
    // Pivot 600 * (1 - 200 / 500) = 360, cut 400: 120 and 200.
    expect(settled(200, 1000, setup, vehicle).drive).toEqual([-240, 560, 0, 0]);
    // Backwards, to the left as well: the right track is the slower one now.
    expect(settled(-200, 1000, setup, vehicle).drive).toEqual([-560, 240, 0, 0]);
    expect(settled(500, 1000, setup, vehicle).drive).toEqual([300, 500, 0, 0]);
  });
});

describe('one motor', () => {
  it('follows the demand whatever the wheel does', () => {
    const vehicle = { [V.LAYOUT]: Layout.SINGLE, [V.MOTORS]: 1 };
    expect(settled(600, 1000, {}, vehicle)).toEqual({ drive: [600, 0, 0, 0], cut: 0 });
  });
});
