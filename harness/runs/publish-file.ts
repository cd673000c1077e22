import { access, link, rename, rm } from 'node:fs/promises';
import { writeError } from '../file-error.ts';
import { type Problem, UserError } from '../problems.ts';

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
    if (overwrite || code === undefined || !NO_LINKS.includes(code))
      throw writeRunError(path, error);
    await refuseExisting(path);
    await rename(partial, path);
  }
}

/** @throws UserError naming each of the paths that exists */
export async function refuseExisting(...paths: string[]): Promise<void> {
  const there: string[] = [];
  for (const path of paths) {
    const exists = await access(path).then(
      () => true,
      () => false,
    );
    if (exists) there.push(path);
  }
  if (there.length > 0) throw new UserError(there.map(taken));
}

/** The user's error behind a failed write. */
export function writeRunError(path: string, error: unknown): unknown {
  const { code } = error as NodeJS.ErrnoException;
  return code === 'EEXIST'
    ? new UserError([taken(path)])
    : writeError(path.replace(DRAFT, ''), error);
}

/** What file systems without hard links answer. */
const NO_LINKS = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV'];

/** Ending of a run that is being written. */
const DRAFT = /\.partial$/;

function taken(file: string): Problem {
  const cure = DRAFT.test(file)
    ? 'It is left of a run that was not finished: rename it to keep it, or delete it.'
    : 'Choose another name, move it away, or give --overwrite to a command that has it.';
  return { file, message: 'There is such a file already.', cure };
}
