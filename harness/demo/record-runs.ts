import { copyFileSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { packageRoot } from '../../targets/package-root.ts';
import { replayRun } from '../replay/replay-run.ts';
import { readRunMetadata } from '../runs/read-run-metadata.ts';
import { metadataPath } from '../runs/run-metadata.ts';

/** Drives the inputs of every demo run through the core of today and puts the result in its place. */
async function recordRuns(): Promise<void> {
  const garages = join(packageRoot(), 'harness/demo/garages');
  const runs = readdirSync(garages).flatMap((car) =>
    readdirSync(join(garages, car, 'runs'))
      .filter((name) => name.endsWith('.csv'))
      .map((name) => join(garages, car, 'runs', name)),
  );
  for (const run of runs) {
    const { setups, origin } = (await readRunMetadata(run)) ?? {};
    const folder = mkdtempSync(join(tmpdir(), 'axlewright-'));
    const save = join(folder, basename(run));
    await replayRun(run, {
      ...(setups && { setup: setups }),
      ...(origin !== undefined && { origin }),
      mode: 'strict',
      repairs: [],
      engine: 'node',
      save,
    });
    copyFileSync(save, run);
    copyFileSync(metadataPath(save), metadataPath(run));
    rmSync(folder, { recursive: true });
    process.stdout.write(`recorded ${run}\n`);
  }
}

await recordRuns();
