import { mkdirSync, statSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { type Problem, UserError } from './problems.ts';

/** The user's error behind a file that could not be read; `error` itself if it is none of those. */
export function readError(path: string, error: unknown): unknown {
  return asUserError(path, error, READING, 'cannot be read');
}

/** The same of a file or folder that could not be written. */
export function writeError(path: string, error: unknown): unknown {
  return asUserError(path, error, WRITING, 'cannot be written');
}

/**
 * Before work whose result is to be written: whether a file may stand there.
 *
 * @param field the option that names the path, where it is to be told
 * @throws UserError when it has no name, is a folder or no file at all, or lies in no folder
 */
export async function checkPlace(path: string, field?: string): Promise<void> {
  const told = { file: path, ...(field !== undefined && { field }) };
  if (path === '') throw new UserError([{ ...told, file: 'nothing', ...NO_NAME }]);
  const folder = await stat(dirname(path)).catch((error) => {
    const wrong = writeError(path, error);
    if (!(wrong instanceof UserError)) throw wrong;
    throw new UserError(wrong.problems.map((problem) => ({ ...problem, ...told })));
  });
  if (!folder.isDirectory()) throw new UserError([{ ...told, ...UNDER_FILE }]);
  const found = await stat(path).catch(() => undefined);
  if (found?.isDirectory()) throw new UserError([{ ...told, ...IS_FOLDER }]);
  if (found?.isFile() === false) throw new UserError([{ ...told, ...IS_DEVICE }]);
}

/**
 * Folder by folder, as Node's own `recursive` never ends where none can be made, such as `/proc`.
 *
 * @throws UserError when the folder can neither be found nor made
 */
export function makeFolder(path: string): void {
  if (isFolder(path)) return;
  if (dirname(path) !== path) makeFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    // Another process may have made it meanwhile.
    if (!isFolder(path)) throw asUserError(path, error, MAKING, 'cannot be made');
  }
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
}

type Words = Readonly<Record<string, Pick<Problem, 'message' | 'cure'>>>;

const READING: Words = {
  ENOENT: { message: 'there is no such file.', cure: 'Check the path.' },
  EISDIR: { message: 'is a folder, expected a file.', cure: 'Name a file in it.' },
  ENOTDIR: { message: 'there is no such file: its folder is a file.', cure: 'Check the path.' },
  EACCES: { message: 'may not be read.', cure: 'Give yourself the right to read it.' },
  EPERM: { message: 'may not be read.', cure: 'Give yourself the right to read it.' },
};

const IS_FOLDER = { message: 'is a folder, expected a file to write.', cure: 'Name a file in it.' };
const NO_NAME = { message: 'expected the name of a file.', cure: 'Name one, or leave it out.' };
const IS_DEVICE = { message: 'is a device, expected a file to write.', cure: 'Name a file.' };
const UNDER_FILE = { message: 'would lie under a file.', cure: 'Name a file in a folder.' };
const FOLDER = 'Name a folder that you may write to.';
const WRITING: Words = {
  ENOENT: { message: 'there is no such folder.', cure: 'Make it first, or name another one.' },
  EISDIR: IS_FOLDER,
  ENOTDIR: UNDER_FILE,
  EEXIST: { message: 'is a file, expected a folder.', cure: 'Name another folder.' },
  EACCES: { message: 'may not be written.', cure: FOLDER },
  EPERM: { message: 'may not be written.', cure: FOLDER },
  EROFS: { message: 'may not be written.', cure: FOLDER },
  ENOSPC: { message: 'cannot be written: the disk is full.', cure: 'Free some space on it.' },
};

const MAKING: Words = {
  ...WRITING,
  ENOENT: { message: 'takes no folder.', cure: FOLDER },
};

function asUserError(file: string, error: unknown, words: Words, otherwise: string): unknown {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
  if (code === undefined || error instanceof UserError) return error;
  return new UserError([{ file, ...(words[code] ?? { message: `${otherwise} (${code}).` }) }]);
}
