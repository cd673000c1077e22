import { expect, test } from 'vitest';
import { createFinding } from '../../lib/finding.ts';
import { Found, Reaction } from '../../lib/index.ts';

test('half sure at the threshold, sure at twice that, no surer with a sum of another setup', () => {
  const finding = createFinding(2, Found.FREE);
  const sureOf = (sum: number) => {
    finding.run([0, sum, 0, 0], 10);
    return finding.sure;
  };
  finding.load(Reaction.REPORT, 400, 100);
  expect([3, 4].map(sureOf)).toEqual([0, 0]);
  expect([4.5, 6, 8].map(sureOf)).toEqual([562.5, 750, 1000]);
  expect(finding.found).toBe(Found.FREE << 1);
  // The sum of a side that is driven lightly stays as it is.
  finding.load(Reaction.REPORT, 300, 100);
  expect(sureOf(8)).toBe(1000);
});
