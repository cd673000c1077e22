import { expect, test } from 'vitest';
import { showRun } from '../../harness/study/show-run.ts';
import { Layout, V } from '../../lib/index.ts';
import { HALL_RUN, hallConstants } from './hall-floor.ts';

// What the command in DEVELOPERS.md prints of tests/fixtures/runs/hall-floor.csv.

test('prints that in the hall floor run data cannot tell, with residual and noise', async () => {
  const text = await showRun(HALL_RUN, await hallConstants(), [
    { from: 0, to: 28 },
    { from: 29.1, to: 31.5 },
    { from: 51.3, to: 60 },
  ]);
  expect(text).toMatch(/^Found:\n {2}nothing\n0 to 28 s: found nothing;/);
  expect(text).toContain('\n29.1 to 31.5 s: found nothing;');
  // Nothing to tell a lost front drive from.
  expect(text).toContain('\n51.3 to 60 s: found nothing; straight starts from rest: 0\n');
  expect(text.match(/^ {2}(left|right): -?\d+ ± \d+ mm\/s, within its noise$/gm)).toHaveLength(6);
});

test('refuses a vehicle whose motors the run does not have', async () => {
  const { vehicle, setups, crc } = await hallConstants();
  const four = { vehicle: vehicle.with(V.LAYOUT, Layout.TWO_PAIRS).with(V.MOTORS, 4), setups, crc };
  await expect(showRun(HALL_RUN, four, [])).rejects.toThrow(/no commands of these motors/);
});
