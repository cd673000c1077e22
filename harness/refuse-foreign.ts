import { open } from 'node:fs/promises';
import { readError } from './file-error.ts';
import { UserError } from './problems.ts';

/** As much of a file as tells its kind, bytes. */
const HEAD = 4096;

/**
 * Refuses to write over what is not ours: runs and setups lie beside what commands make.
 *
 * @param begins what every file of the kind begins with
 * @param kind such as "report"
 * @param field the option that names the path
 * @throws UserError if something else is there, or what is there cannot be read
 */
export async function refuseForeign(
  path: string,
  begins: RegExp,
  kind: string,
  field?: string,
): Promise<void> {
  const found = await headOf(path);
  if (found === '' || begins.test(found)) return;
  const message = `is there already and is no ${kind}; nothing was written.`;
  const where = { file: path, ...(field !== undefined && { field }) };
  throw new UserError([{ ...where, message, cure: 'Name another file.' }]);
}

/** Nothing where nothing is. */
async function headOf(path: string): Promise<string> {
  const file = await open(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw readError(path, error);
  });
  if (file === undefined) return '';
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD), 0, HEAD, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await file.close();
  }
}
