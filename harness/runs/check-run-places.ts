import { existsSync } from 'node:fs';
import { checkPlace } from '../file-error.ts';
import { refuseForeign } from '../refuse-foreign.ts';
import { refuseExisting } from './publish-file.ts';
import { metadataPath } from './run-metadata.ts';

/**
 * Before runs are written: whether each has a place, and what stands there may go.
 *
 * @param overwrite true = runs may be replaced, told by their description or their header
 * @param field the option that names the paths
 * @throws UserError if one may not be written
 */
export async function checkRunPlaces(
  paths: readonly string[],
  overwrite: boolean,
  field?: string,
): Promise<void> {
  for (const path of paths) await checkPlace(path, field);
  if (!overwrite) return refuseExisting(...paths.flatMap((path) => [path, metadataPath(path)]));
  for (const path of paths) {
    if (!existsSync(metadataPath(path))) await refuseForeign(path, /\btime_ms\b/, 'run', field);
  }
}
