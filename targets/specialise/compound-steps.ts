import type { AnyNode, AssignmentExpression, Expression, Program, UpdateExpression } from 'acorn';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { isSame } from './shapes.ts';
import { mapTree } from './tree.ts';

/** Writes `x = x + y` as `x += y`, of a product `x = y * x` as `x *= y`, and `x += 1` as `x++`. */
export function compoundSteps(program: Program): Program {
  return mapTree(program, (node) => {
    if (node.type === 'ExpressionStatement') {
      const { expression } = node;
      return isCounted(expression) ? { ...node, expression: counted(expression) } : node;
    }
    if (node.type !== 'AssignmentExpression' || node.operator !== '=') return node;
    const { left: target, right: value } = node;
    if (value.type !== 'BinaryExpression' || !/^[-+*/|&^]$/.test(value.operator)) return node;
    if (!isPure(target as AnyNode) || !isPure(value)) return node;
    const right = otherSide(target, value.left, value.operator, value.right);
    return right === undefined
      ? node
      : ({ ...node, operator: `${value.operator}=`, right } as AnyNode);
  });
}

/** true for `x += 1` and `x -= 1`, of which x is a number. */
function isCounted(node: AnyNode): node is AssignmentExpression {
  if (node.type !== 'AssignmentExpression' || !/^[-+]=$/.test(node.operator)) return false;
  return knownValue(node.right) === 1 && isPure(node.left);
}

function counted({ left, operator }: AssignmentExpression): UpdateExpression {
  const twice = operator === '+=' ? '++' : '--';
  const argument = left as Expression;
  return { type: 'UpdateExpression', operator: twice, prefix: false, argument, start: 0, end: 0 };
}

function otherSide(
  target: AnyNode,
  left: AnyNode,
  operator: string,
  right: AnyNode,
): Expression | undefined {
  if (isSame(target, left)) return right as Expression;
  // Which side of a sum or a product comes first makes no difference to the last bit.
  return /^[+*|&^]$/.test(operator) && isSame(target, right) ? (left as Expression) : undefined;
}
