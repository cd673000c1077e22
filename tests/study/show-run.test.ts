import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { showRun } from '../../harness/study/show-run.ts';
import { Layout, V } from '../../lib/index.ts';
import { hallConstants } from './hall-floor.ts';

const RUN = fileURLToPath(new URL('../fixtures/runs/hall-floor.csv', import.meta.url));

test('prints that in the hall floor run the data cannot tell, with residual and noise', async () => {
  const text = await showRun(RUN, hallConstants(), [
    { from: 29.1, to: 31.5 },
    { from: 51.3, to: 60 },
  ]);
  expect(text).toMatch(/^Found:\n {2}nothing\nWheel less vehicle, 29.1 to 31.5 s/);
  expect(text.match(/^ {2}(left|right): -?\d+ ± \d+ mm\/s, within its noise$/gm)).toHaveLength(4);
});

test('refuses a vehicle whose motors the run does not have', async () => {
  const { vehicle, setups, crc } = hallConstants();
  const four = { vehicle: vehicle.with(V.LAYOUT, Layout.TWO_PAIRS).with(V.MOTORS, 4), setups, crc };
  await expect(showRun(RUN, four, [])).rejects.toThrow(/no commands of these motors/);
});
