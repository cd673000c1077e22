import { access, link, rename, rm } from 'node:fs/promises';
import { UserError } from '../problems.ts';

/**
 * Gives a finished file its name in one step.
 *
 * @param overwrite false = never take the place of a file that came about meanwhile
 * @throws UserError when that name is taken or cannot be given
 */
export async function publishFile(
  partial: string,
  path: string,
  overwrite: boolean,
): Promise<void> {
  try {
    if (overwrite) {
      await rename(partial, path);
      return;
    }
    await link(partial, path);
    await rm(partial);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (overwrite || code === undefined || !NO_LINKS.includes(code)) throw writeError(path, error);
    await refuseExisting(path);
    await rename(partial, path);
  }
}

/** @throws UserError naming each of the paths that exists */
export async function refuseExisting(...paths: string[]): Promise<void> {
  const taken: string[] = [];
  for (const path of paths) {
    const exists = await access(path).then(
      () => true,
      () => false,
    );
    if (exists) taken.push(path);
  }
  if (taken.length > 0) throw new UserError(taken.map(alreadyThere));
}

/** The user's error behind a failed write. */
export function writeError(path: string, error: unknown): UserError {
  const { code = 'unknown error' } = error as NodeJS.ErrnoException;
  if (code === 'EEXIST') return new UserError([alreadyThere(path)]);
  if (code === 'ENOENT') {
    return new UserError([{ file: path, message: 'There is no such folder.', cure: 'Make it.' }]);
  }
  const cure = 'Check access rights and free space.';
  return new UserError([{ file: path, message: `Cannot be written (${code}).`, cure }]);
}

/** What file systems without hard links answer. */
const NO_LINKS = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV'];

function alreadyThere(path: string) {
  const cure = path.endsWith('.partial')
    ? 'It is left of a run that was not finished: rename it to keep it, or delete it.'
    : 'Choose another name, move it away, or give --overwrite to a command that has it.';
  return { file: path, message: 'There is such a file already.', cure };
}
