import { UserError } from '../problems.ts';
import { unknownName } from '../setup/load-records.ts';
import type { Manoeuvre } from './manoeuvre.ts';
import { MANOEUVRES } from './manoeuvres.ts';

/**
 * The manoeuvre of that name.
 *
 * @throws UserError naming all manoeuvres, with a hint, if there is none
 */
export function findManoeuvre(name: string): Manoeuvre {
  const found = MANOEUVRES.find((manoeuvre) => manoeuvre.name === name);
  if (found !== undefined) return found;
  const names = MANOEUVRES.map((manoeuvre) => manoeuvre.name);
  throw new UserError([unknownName('command line', '--manoeuvre', name, names)]);
}
