import { V } from '../../lib/constants.ts';
import type { Constants } from '../../lib/index.ts';
import { packageVersion } from '../../targets/package-version.ts';
import { writeRun } from '../runs/write-run.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { rowsChunk } from './rows-chunk.ts';
import type { TickRows } from './tick-rows.ts';

/** What is to be known of a simulated run beside its rows. */
export interface SavedDrive {
  rows: TickRows;
  constants: Constants;
  vehicle: string;
  /** Names of the setups on board, from slot 0. */
  setups: readonly string[];
  surface: string;
  seed: number;
  /** How it came about, a sentence. */
  origin: string;
  notes: readonly string[];
}

/**
 * Writes a drive as a run, as a hub would have recorded it.
 *
 * @param overwrite true = replace a run of that name
 * @throws UserError if the file exists or cannot be written
 */
export async function saveDrive(
  path: string,
  drive: SavedDrive,
  overwrite: boolean,
): Promise<void> {
  const { rows, constants } = drive;
  const layout = constants.vehicle[V.LAYOUT]!;
  const chunk = rowsChunk(rows, layout);
  await writeRun(path, chunk.header.names, [chunk], {
    overwrite,
    metadata: {
      layout,
      vehicle: drive.vehicle,
      setups: [...drive.setups],
      setupHash: constantsHash(constants),
      constants,
      coreVersion: packageVersion(),
      surface: drive.surface,
      seed: String(drive.seed),
      origin: drive.origin,
      startsAtPowerUp: true,
      notes: [...drive.notes],
    },
  });
}
