import type { Problem } from '../problems.ts';

/** A rule between fields of one checked record, or of several. */
export interface Rule<T> {
  /** Paths of all fields it reads; a broken rule is reported at the first. */
  fields: readonly [string, ...string[]];
  /** What is wrong, or undefined if the rule holds; called only if all its fields are in range. */
  broken(record: T): Breach | undefined;
}

/** How a rule was broken. */
export interface Breach {
  found: string;
  expected: string;
  cure: string;
}

/** The breach as a problem of `file`. */
export function breachProblem(file: string, field: string, breach: Breach): Problem {
  const message = `found ${breach.found}, expected ${breach.expected}.`;
  return { file, field, message, cure: breach.cure };
}
