import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decimalsFor } from '../../harness/report/client/look.ts';
import { createTimeFormat, decimalsOf, formatNumber } from '../../harness/report/format.ts';

describe('times in a report', () => {
  test.each([
    [60, 12.345, 2, '12.35 s'],
    [60, 0, 1, '0.0 s'],
    [599, -0.5, 1, '\u22120.5 s'],
    [600, 75.5, 2, '1:15.50'],
    [3599, 59.999, 2, '1:00.00'],
    [3600, 3599.999, 1, '1:00:00.0'],
    [7200, 3723, 0, '1:02:03'],
    [600, -61, 0, '\u22121:01'],
  ])('in a run of %d s, %d s with %d decimals is "%s"', (lastS, seconds, decimals, text) => {
    expect(createTimeFormat(lastS)(seconds, decimals)).toBe(text);
  });

  test('minutes and seconds read back as the time that was written', () => {
    const format = createTimeFormat(7200);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 720_000 }), (hundredths) => {
        const [hours, minutes, seconds] = format(hundredths / 100)
          .split(':')
          .map(Number);
        expect(minutes).toBeLessThan(60);
        expect(seconds).toBeLessThan(60);
        expect(hours! * 3600 + minutes! * 60 + seconds!).toBeCloseTo(hundredths / 100, 6);
      }),
    );
  });
});

describe('numbers in a report', () => {
  test('have a true minus sign, and zero has none', () => {
    expect(formatNumber(-12.5, 1)).toBe('\u221212.5');
    expect(formatNumber(-0.04, 1)).toBe('0.0');
    expect(formatNumber(-0, 0)).toBe('0');
  });

  test('show as many decimals as the values need, three at most', () => {
    expect(decimalsOf([1, -2, null])).toBe(0);
    expect(decimalsOf([7.4, 7.41])).toBe(2);
    expect(decimalsOf([1 / 3])).toBe(3);
    expect(decimalsOf([])).toBe(0);
  });
});

test.each([
  [2.5, 1],
  [0.25, 2],
  [1, 0],
  [10, 0],
  [0.1, 1],
  [0.0005, 4],
  [1e-9, 6],
])('an axis of steps of %d shows %d decimals', (step, decimals) => {
  expect(decimalsFor(step)).toBe(decimals);
});
