import { expect, test } from 'vitest';
import { averageRunLength, solveCusum } from '../../harness/setup/solve-cusum.ts';

// Siegmund's formula itself is held against published values in tests/published/cusum.test.ts.

test.each([
  [4, 7.2e6],
  [10, 3.6e6],
  [25, 1e5],
  [3, 400],
])('finds a shift of 2k in %d ticks on average, and alarms without one every %d', (find, never) => {
  const { k, h } = solveCusum(find, never);
  expect(averageRunLength(k, h)).toBeCloseTo(find, 4);
  expect(averageRunLength(-k, h) / never).toBeCloseTo(1, 6);
});

test('sooner or surer costs: the shift that is found grows', () => {
  const calm = solveCusum(10, 1e6);
  expect(solveCusum(5, 1e6).k).toBeGreaterThan(calm.k);
  expect(solveCusum(10, 1e8).k).toBeGreaterThan(calm.k);
  expect(solveCusum(20, 1e6).k).toBeLessThan(calm.k);
});
