import { expect, test } from 'vitest';
import { toldOnce } from '../../harness/cli/told-once.ts';

test('what happens again and again is told once, with its count and its last time', () => {
  const found = [
    { atS: 0.5, text: 'A.' },
    { atS: 1, text: 'B.' },
    { atS: 1.25, text: 'A.' },
    { atS: 7, text: 'A.' },
  ];
  expect(toldOnce(found)).toEqual([
    ['0.50 s', 'A. 3 times, the last at 7.00 s.'],
    ['1.00 s', 'B.'],
  ]);
  expect(toldOnce([])).toEqual([]);
});
