import { describe, expect, test } from 'vitest';
import { createNoise } from '../../harness/plant/noise.ts';
import { averageRunLength } from '../../harness/setup/solve-cusum.ts';
import { cusum } from '../../lib/cusum.ts';
import published from './cusum.json' with { type: 'json' };

// tests/published/cusum.json: Montgomery & Runger, Table 16-9, k = 1/2, h = 4 (as quoted there);
// Siegmund 1985 with its worked case, from memory. The core's routine is fed by normal noise from
// fixed seeds, so each mean run length must lie within the Monte Carlo error of the published one.

const { rows } = published.table_k_0p5_h4;
const { worked } = published.siegmund;
/** Standard errors that a mean may be off: one in 16 000 by chance; the seeds are fixed. */
const SIGMAS = 4;

/** Mean run length until one of two sums, or the upper one, passes h; and its standard error. */
function monteCarlo(shift: number, h: number, sides: 1 | 2, runs: number, seed: number) {
  const noise = createNoise(seed);
  let sum = 0;
  let squares = 0;
  for (let run = 0; run < runs; run++) {
    let [upper, lower, length] = [0, 0, 0];
    while (upper <= h && (sides === 1 || lower <= h)) {
      const x = noise.normal() + shift;
      upper = cusum(upper, x, 0.5, 1000);
      lower = cusum(lower, -x, 0.5, 1000);
      length++;
    }
    sum += length;
    squares += length * length;
  }
  const mean = sum / runs;
  return { mean, error: Math.sqrt((squares / runs - mean * mean) / runs) };
}

describe('average run length of the core’s CUSUM, k = 0.5, h = 4, two-sided', () => {
  test.each(rows)('at a shift of $shift it is the published $h4_published', (row) => {
    const runs = Math.min(40_000, Math.round(1_500_000 / row.h4_published));
    const { mean, error } = monteCarlo(row.shift, 4, 2, runs, 4000 + 100 * row.shift);
    expect(Math.abs(mean - row.h4_two_sided_computed)).toBeLessThan(SIGMAS * error);
    // The table is rounded to three digits.
    expect(Math.abs(mean - row.h4_published)).toBeLessThan(
      SIGMAS * error + 0.005 * row.h4_published,
    );
  });

  test('one-sided without a shift it is twice as long', () => {
    const { mean, error } = monteCarlo(0, 4, 1, 6000, 77);
    expect(Math.abs(mean - rows[0]!.h4_one_sided_computed)).toBeLessThan(SIGMAS * error);
  });
});

describe('Siegmund’s formula, by which thresholds are baked', () => {
  test('gives the worked case', () => {
    expect(averageRunLength(-worked.k, worked.h)).toBeCloseTo(worked.ARL0_one_sided, 6);
    expect(averageRunLength(1 - worked.k, worked.h)).toBeCloseTo(worked.ARL1_shift1, 8);
    expect(averageRunLength(0, worked.h)).toBeCloseTo(worked.b * worked.b, 9);
  });

  test.each(rows)('at a shift of $shift gives the column of the checks', (row) => {
    expect(averageRunLength(row.shift - 0.5, 4)).toBeCloseTo(row.h4_siegmund_one_sided, 6);
  });

  test('agrees with the core’s routine within 3 % up to a shift of 1, k = 0.5, h = 5', () => {
    for (const shift of [0.25, 0.5, 1]) {
      const { mean, error } = monteCarlo(shift, 5, 1, 8000, 500 + 10 * shift);
      const formula = averageRunLength(shift - 0.5, 5);
      expect(Math.abs(mean - formula)).toBeLessThan(SIGMAS * error + 0.03 * formula);
    }
  });
});
