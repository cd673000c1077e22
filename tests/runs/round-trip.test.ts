import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { writeRun } from '../../harness/runs/write-run.ts';
import { randomRun, runText, toChunk } from './random-run.ts';
import { createScratch, readOut } from './scratch.ts';

const scratch = createScratch();
const CLOCK = /^clock-/;

test('any run comes back as it was written: columns, order, integers, texts', async () => {
  const path = scratch.path('trip.csv');
  await fc.assert(
    fc.asyncProperty(randomRun({ maxRows: 20, text: runText }), async (run) => {
      await writeRun(path, run.names, [toChunk(run)], { overwrite: true });
      const out = await readOut(path);
      expect(out.issues.filter(({ kind }) => !CLOCK.test(kind))).toEqual([]);
      expect(out.rows).toEqual(run.rows.map(({ integers }) => integers));
      expect(out.texts).toEqual(run.rows.map(({ texts }) => texts));
      if (run.rows.length > 0) expect(out.names).toEqual(run.names);
    }),
    { numRuns: 300, seed: 6021 },
  );
});

test('reading and writing again gives the same bytes', async () => {
  const first = scratch.path('first.csv');
  const second = scratch.path('second.csv');
  await fc.assert(
    fc.asyncProperty(randomRun({ maxRows: 8, text: runText }), async (run) => {
      await writeRun(first, run.names, [toChunk(run)], { overwrite: true });
      const out = await readOut(first);
      const rows = out.rows.map((integers, at) => ({ integers, texts: out.texts[at]! }));
      const again = toChunk({ names: run.names, rows });
      await writeRun(second, run.names, [again], { overwrite: true });
      expect(scratch.text('second.csv')).toBe(scratch.text('first.csv'));
    }),
    { numRuns: 100, seed: 6022 },
  );
});
