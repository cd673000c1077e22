import { availableParallelism } from 'node:os';
import { extname } from 'node:path';
import { Tinypool } from 'tinypool';
import type { DriveResult } from './run-drive.ts';
import type { StudyDrive } from './study-drive.ts';
import { addDrive, createTally, type Tally } from './tally.ts';

/** Drives that go to a worker at once. */
const BATCH = 20;

/**
 * Runs drives on all cores; the tally does not depend on how many there are.
 *
 * @param onDone called now and then with how many drives are done
 */
export async function runStudy(
  drives: readonly StudyDrive[],
  onDone: (done: number) => void,
): Promise<Tally> {
  const filename = new URL(`./drive-worker${extname(import.meta.url)}`, import.meta.url).href;
  const pool = new Tinypool({ filename, maxThreads: availableParallelism() });
  const tally = createTally();
  let done = 0;
  try {
    const batches = Array.from({ length: Math.ceil(drives.length / BATCH) }, (_, i) =>
      drives.slice(i * BATCH, (i + 1) * BATCH),
    );
    const results = await Promise.all(
      batches.map(async (batch) => {
        const part = (await pool.run(batch)) as DriveResult[];
        done += batch.length;
        onDone(done);
        return part;
      }),
    );
    for (const result of results.flat()) addDrive(tally, result);
  } finally {
    await pool.destroy();
  }
  return tally;
}
