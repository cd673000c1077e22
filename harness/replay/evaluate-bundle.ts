import type { Constants, Controller } from '../../lib/index.ts';

/** What a bundle defines, as far as a replay in Node asks for it. */
interface EvaluatedBundle {
  createController(constants: Constants): Controller;
}

/** The last one: all cores of a replay share its code, which an engine then compiles once. */
let last: { code: string; bundle: EvaluatedBundle } | undefined;

/**
 * What the script of a bundle defines; a bundle holds no state of its own, so two cores made by
 * the same one do not know of each other.
 *
 * @param code a bundle of any variant, see targets/SPEC.md
 */
export function evaluateBundle(code: string): EvaluatedBundle {
  // The bundle is our own; it gets a scope, not the module's names.
  if (last?.code !== code) last = { code, bundle: new Function(`${code}\nreturn axlewright;`)() };
  return last.bundle;
}
