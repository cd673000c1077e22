import { loadStudyGarages } from './load-study-garages.ts';
import { type DriveResult, runDrive } from './run-drive.ts';
import type { StudyDrive } from './study-drive.ts';

const garages = await loadStudyGarages();

/** What a worker of the study does. */
export default function runDrives(drives: readonly StudyDrive[]): DriveResult[] {
  return drives.map((drive) => runDrive(drive, garages.get(drive.garage)!));
}
