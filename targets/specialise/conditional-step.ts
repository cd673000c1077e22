import type { AnyNode, Expression } from 'acorn';
import { statementsOf } from './tree.ts';
import { plainAssignment } from './variables.ts';

/** The parts of `if (test) name = value;`. */
export interface ConditionalStep {
  test: Expression;
  name: string;
  value: Expression;
}

/** What an `if` that does no more than to give a name another value is made of. */
export function conditionalStep(node: AnyNode): ConditionalStep | undefined {
  if (node.type !== 'IfStatement' || node.alternate) return undefined;
  const [step, another] = statementsOf(node.consequent);
  const set = step && plainAssignment(step);
  return set === undefined || another ? undefined : { test: node.test, ...set };
}
