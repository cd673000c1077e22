import { existsSync } from 'node:fs';
import { refuseForeign } from '../refuse-foreign.ts';
import { metadataPath } from './run-metadata.ts';

/**
 * Before a run is replaced: whether what is there is one, by its description or its header.
 *
 * @param field the option that names the path
 * @throws UserError if something else is there
 */
export async function refuseOtherThanRun(path: string, field?: string): Promise<void> {
  if (!existsSync(metadataPath(path))) await refuseForeign(path, /\btime_ms\b/, 'run', field);
}
