import { hallEvening } from './drives/hall-evening.ts';
import { openDay } from './drives/open-day.ts';
import { demoRunPath, recordRun } from './record-run.ts';

/** Drives every run of the demo anew. */
for (const drive of [hallEvening, openDay]) {
  await recordRun(drive, demoRunPath(drive));
  process.stdout.write(`recorded ${demoRunPath(drive)}\n`);
}
