import type { AnyNode, Expression, Program } from 'acorn';
import { isPure } from './is-pure.ts';
import { isSame } from './shapes.ts';
import { mapTree } from './tree.ts';

/** Writes `x = x + y` as `x += y`, and of a product `x = y * x` as `x *= y`. */
export function compoundSteps(program: Program): Program {
  return mapTree(program, (node) => {
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
