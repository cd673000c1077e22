import type { Constants, Controller } from '../../lib/index.ts';

/** A bundle and what it defines in Node. */
export interface EvaluatedBundle {
  /** The script itself, for other engines. */
  code: string;
  /** What it defines; it holds no state, so two cores made by it do not know of each other. */
  axlewright: { createController(constants: Constants): Controller };
}

/**
 * Evaluates a bundle in Node, once for all cores of a replay: the engine then compiles its code and
 * learns how it is used once as well.
 *
 * @param code a bundle of any variant, see targets/SPEC.md
 */
export function evaluateBundle(code: string): EvaluatedBundle {
  // The bundle is our own; it gets a scope, not the module's names.
  return { code, axlewright: new Function(`${code}\nreturn axlewright;`)() };
}
