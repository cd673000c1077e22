import { rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { writeError } from './file-error.ts';

/**
 * Writes a file in one step: a reader of `path` sees the old file or the whole new one, never a
 * part.
 *
 * @throws UserError when the file cannot be written there
 */
export async function writeWhole(path: string, text: string): Promise<void> {
  const draft = join(dirname(path), `.${basename(path)}.${process.pid}.draft`);
  try {
    await writeFile(draft, text);
    await rename(draft, path);
  } catch (error) {
    await rm(draft, { force: true });
    throw writeError(path, error);
  }
}
