import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { S, V } from '../../lib/index.ts';
import { type Changes, plainConstants } from '../limits/plain-constants.ts';
import { createArmedBench, createBench, pulse } from './bench.ts';

/** Dead band with rescaling d, expo e, end limit m, of a stick from -1 to 1. */
function closedForm(stick: number, d: number, e: number, ahead: number, back: number): number {
  const a = Math.abs(stick);
  const x = a <= d ? 0 : (a - d) / (1 - d);
  const y = (1 - e) * x + e * x ** 3;
  return stick < 0 ? -y * back : y * ahead;
}

function throttleOf(setup: Changes, us: number, vehicle: Changes = {}): number {
  return createBench(plainConstants({ vehicle, setups: [setup] })).step(1, { throttleUs: us })
    .throttle;
}

const even = fc.integer({ min: -500, max: 500 }).map((half) => 2 * half);

describe('a stick is shaped by the closed form', () => {
  it('of dead band with rescaling, cubic expo and end limits, for every stick and setup', () => {
    fc.assert(
      fc.property(
        even,
        fc.integer({ min: 10, max: 300 }),
        fc.integer({ min: 0, max: 1000 }),
        fc.integer({ min: 0, max: 1000 }),
        fc.integer({ min: 0, max: 1000 }),
        (stick, deadBand, expo, ahead, back) => {
          const setup = {
            [S.THROTTLE_DEAD_BAND]: deadBand,
            [S.THROTTLE_EXPO]: expo,
            [S.FORWARD_LIMIT]: ahead,
            [S.REVERSE_LIMIT]: back,
          };
          const want = closedForm(stick / 1000, deadBand / 1000, expo / 1000, ahead, back);
          expect(throttleOf(setup, pulse(stick))).toBeCloseTo(want, 9);
        },
      ),
      { seed: 701 },
    );
  });

  it.each([
    // d = 0.1, e = 0.5: x = (0.55 - 0.1) / 0.9 = 0.5; 0.5 * 0.5 + 0.5 * 0.125 = 0.3125.
    ['half-way beyond the dead band', 550, 312.5],
    ['on the edge of the dead band', 100, 0],
    ['at the end', 1000, 1000],
    ['beyond the end, inside the margin', 1100, 1000],
    ['backwards at the end', -1000, -1000],
  ])('worked example: %s', (_name, stick, want) => {
    const setup = { [S.THROTTLE_DEAD_BAND]: 100, [S.THROTTLE_EXPO]: 500 };
    expect(throttleOf(setup, pulse(stick))).toBeCloseTo(want, 9);
  });

  it('with each half of an uneven calibration scaled by itself, and a reversed channel', () => {
    const vehicle = {
      [V.THROTTLE_LOW_US]: 1100,
      [V.THROTTLE_CENTRE_US]: 1500,
      [V.THROTTLE_HIGH_US]: 1700,
    };
    expect(throttleOf({}, 1600, vehicle)).toBeCloseTo((500 - 100) / 0.9, 9);
    expect(throttleOf({}, 1300, vehicle)).toBeCloseTo(-(500 - 100) / 0.9, 9);
    const reversed = { ...vehicle, [V.THROTTLE_REVERSED]: 1 };
    expect(throttleOf({}, 1600, reversed)).toBeCloseTo(-(500 - 100) / 0.9, 9);
  });

  it('never falls while the stick goes forward', () => {
    const setup = { [S.THROTTLE_EXPO]: 800 };
    const bench = createBench(plainConstants({ setups: [setup] }));
    let last = -Infinity;
    for (let us = 900; us <= 2100; us++) {
      const { throttle } = bench.step(1, { throttleUs: us });
      expect(throttle).toBeGreaterThanOrEqual(last);
      last = throttle;
    }
    expect(last).toBeCloseTo(1000, 9);
  });
});

describe('the low-pass of the throttle', () => {
  const smoothing = plainConstants({ setups: [{ [S.THROTTLE_SMOOTHING_MS]: 100 }] });

  it('answers a step by 1 - (T / (T + dt))^n, near 1 - exp(-t / T)', () => {
    const bench = createArmedBench(smoothing);
    for (let n = 1; n <= 60; n++) {
      const { throttle } = bench.step(1, { throttleUs: pulse(1000) });
      expect(throttle).toBeCloseTo(1000 * (1 - (100 / 110) ** n), 6);
      expect(Math.abs(throttle - 1000 * (1 - Math.exp(-n / 10)))).toBeLessThan(20);
    }
    for (let n = 1; n <= 60; n++) {
      const { throttle } = bench.step(1, { throttleUs: pulse(0) });
      expect(throttle).toBeCloseTo(1000 * (1 - (100 / 110) ** 60) * (100 / 110) ** n, 6);
    }
  });

  it('lets a command die away, but not grow, while the clock stands still', () => {
    const grown = createArmedBench(smoothing);
    grown.inputs.timeMs -= 10;
    expect(grown.step(1, { throttleUs: pulse(1000) }).throttle).toBe(0);
    const bench = createArmedBench(smoothing);
    bench.step(100, { throttleUs: pulse(1000) });
    const before = bench.outputs.throttle;
    bench.inputs.timeMs -= 10;
    expect(bench.step(1, { throttleUs: pulse(0) }).throttle).toBeCloseTo((before * 100) / 110, 6);
  });

  it('holds nothing while nothing may move', () => {
    const bench = createBench(smoothing);
    expect(bench.step(1, { throttleUs: pulse(1000) }).throttle).toBeCloseTo(1000, 9);
    expect(bench.step(1, { throttleUs: pulse(0) }).throttle).toBe(0);
  });
});
