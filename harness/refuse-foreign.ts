import { readFile } from 'node:fs/promises';
import { UserError } from './problems.ts';

/**
 * Refuses to write over what is not ours: runs and setups lie beside what commands make.
 *
 * @param begins what every file of the kind begins with
 * @param kind such as "report"
 * @param field the option that names the path
 * @throws UserError if something else is there
 */
export async function refuseForeign(
  path: string,
  begins: RegExp,
  kind: string,
  field?: string,
): Promise<void> {
  const found = await readFile(path, 'utf8').catch(() => '');
  if (found === '' || begins.test(found)) return;
  const message = `is there already and is no ${kind}; nothing was written.`;
  const where = { file: path, ...(field !== undefined && { field }) };
  throw new UserError([{ ...where, message, cure: 'Name another file.' }]);
}
