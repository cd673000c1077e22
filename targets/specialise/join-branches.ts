import type { AnyNode, AssignmentExpression, Program, Statement } from 'acorn';
import { isPure } from './is-pure.ts';
import { isSame } from './shapes.ts';
import { choice, expressionStatement, mapTree, statementsOf } from './tree.ts';

/** Writes `x = test ? a : b` where either branch gives the same place a value: less text. */
export function joinBranches(program: Program): Program {
  return mapTree(program, (node) => {
    if (node.type !== 'IfStatement') return node;
    const [then, otherwise] = [soleStep(node.consequent), soleStep(node.alternate)];
    if (!then || !otherwise || !isSame(then.left, otherwise.left)) return node;
    // Which element it is is found out before all else then.
    const parts = [node.test, then.right, otherwise.right, then.left];
    if (then.left.type !== 'Identifier' && !parts.every(isPure)) return node;
    const right = choice(node.test, then.right, otherwise.right);
    return expressionStatement({ ...then, right });
  });
}

/** The plain assignment that alone a branch consists of. */
function soleStep(branch: Statement | null | undefined): AssignmentExpression | undefined {
  const [only, another] = statementsOf(branch);
  if (only?.type !== 'ExpressionStatement' || another !== undefined) return undefined;
  const expression: AnyNode = only.expression;
  const isPlain = expression.type === 'AssignmentExpression' && expression.operator === '=';
  return isPlain ? expression : undefined;
}
