import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cusum } from '../../lib/cusum.ts';

test('sums what passes k, by hand', () => {
  const sums = [2, 2, -1, 0.5, -9, 1].map(
    (
      (sum) => (z: number) =>
        (sum = cusum(sum, z, 0.5, 3))
    )(0),
  );
  expect(sums).toEqual([1.5, 3, 1.5, 1.5, 0, 0.5]);
});

test('stays between 0 and its cap, and more evidence never makes less of it', () => {
  const part = fc.double({ min: -100, max: 100, noNaN: true });
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(
      share,
      part,
      part,
      fc.double({ min: 0.01, max: 10, noNaN: true }),
      (at, a, b, k) => {
        const most = 10;
        const [low, high] = [
          cusum(at * most, Math.min(a, b), k, most),
          cusum(at * most, Math.max(a, b), k, most),
        ];
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(most);
        expect(high).toBeGreaterThanOrEqual(low);
      },
    ),
    { seed: 12, numRuns: 500 },
  );
});
