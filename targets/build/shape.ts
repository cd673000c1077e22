import type { EngineName } from '../manifest.ts';
import type { Room } from '../specialise/specialise.ts';

/** What a script may grow by where it makes it quicker on its engine. */
export interface Shape extends Room {
  /** true = branches stay statements of their own; see plain-statements.ts. */
  branches: boolean;
}

/** What a script is shaped for: the costs of an engine, or to take as few bytes as it can. */
export type ShapeName = EngineName | 'smallest';

/**
 * The shape of a fitted script, by what is dear on its engine. On Duktape and MuJS an element of an
 * array at hand is no dearer than a variable of a function around, mostly cheaper; on QuickJS it
 * takes several times as long. `npm run figures` shows what it comes to.
 *
 * @param motors of a bundle for a single setup that stays; undefined = another bundle, which has
 *   little room
 */
export function shapeFor(name: ShapeName, motors: number | undefined): Shape {
  if (name === 'smallest') return SMALLEST;
  const variables = name === 'quickjs';
  if (motors === undefined) {
    return { loop: 0, places: variables ? 0 : 1, names: true, branches: false };
  }
  const known = name !== 'any';
  // Loops over four motors take too much.
  const loop = motors > 2 ? 0 : known ? LONG : SHORT;
  const places = variables ? 0 : 4;
  // A name costs MuJS and QuickJS a little more than the number itself, Duktape less.
  const names = name === 'any' || name === 'duktape';
  return { loop, places, ratios: variables, names, branches: known && motors <= 2 };
}

/** Characters that a loop may take more when it is written out: few, or as many as it needs. */
const SHORT = 750;
const LONG = 4000;

const SMALLEST: Shape = {
  loop: 40,
  places: 0,
  fetch: false,
  names: true,
  small: true,
  branches: false,
};
