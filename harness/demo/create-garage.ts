import { cpSync, existsSync, readdirSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { packageRoot } from '../../targets/package-root.ts';
import { makeFolder, writeError } from '../file-error.ts';
import { UserError } from '../problems.ts';
import { unknownName } from '../setup/load-records.ts';

/**
 * Copies a garage of the package, with its comments and runs, as a start for one's own.
 *
 * @param dir folder to make; it may exist if it is empty
 * @param from which car of the demo club: `hatch`, `coupe` or `forwarder`
 * @returns paths of the files written, relative to `dir`, by name
 * @throws UserError if there is no such car, or if `dir` is a file or holds anything; nothing is
 *   ever overwritten
 */
export function createGarage(dir: string, from = 'hatch'): string[] {
  const cars = readdirSync(garages());
  if (!cars.includes(from)) throw new UserError([unknownName(dir, 'from', from, cars.sort())]);
  if (existsSync(dir) && !statSync(dir).isDirectory()) {
    const message = 'is a file; nothing was written.';
    throw new UserError([{ file: dir, message, cure: 'Name a folder that does not exist yet.' }]);
  }
  if (existsSync(dir) && readdirSync(dir).length > 0) {
    const message = 'is not empty; nothing was written.';
    throw new UserError([{ file: dir, message, cure: 'Name a new or an empty folder.' }]);
  }
  // What was built in a demo garage is no part of it.
  const filter = (source: string) => basename(source) !== 'out';
  try {
    makeFolder(join(dir, 'runs'));
    cpSync(demoGarage(from), dir, { recursive: true, filter });
  } catch (error) {
    throw writeError(dir, error);
  }
  return readdirSync(dir, { recursive: true, encoding: 'utf8' })
    .filter((name) => !statSync(join(dir, name)).isDirectory())
    .sort();
}

/** Folder of a garage that comes with the package; read-only for its users. */
export function demoGarage(name: string): string {
  return join(garages(), name);
}

function garages(): string {
  return join(packageRoot(), 'harness', 'demo', 'garages');
}
