import type { AnyNode, BinaryExpression, Expression, Program } from 'acorn';
import { isSame } from './shapes.ts';
import { choice, literal, mapTree } from './tree.ts';

/**
 * Writes `x > c || x < -c` as `(x < 0 ? -x : x) > c`, and `x < c && x > -c` alike, which is the
 * same for any numbers: where magnitudes are worked out by a function, it is shorter.
 */
export function magnitudes(program: Program): Program {
  return mapTree(program, (node) => {
    if (node.type !== 'LogicalExpression' || node.operator === '??') return node;
    const { left, operator, right } = node;
    const joined = joinedBy(operator, left, right);
    if (joined !== undefined) return joined;
    // The first of the two may be the last of a row.
    if (left.type !== 'LogicalExpression' || left.operator !== operator) return node;
    const last = joinedBy(operator, left.right, right);
    return last === undefined ? node : { ...left, right: last };
  });
}

function joinedBy(operator: '||' | '&&', left: AnyNode, right: AnyNode): Expression | undefined {
  const last = operator === '||' ? '>' : '<';
  if (!isCompared(left, last) || !isCompared(right, last === '>' ? '<' : '>')) return undefined;
  // The one may be strict only if the other is.
  if (left.operator.length !== right.operator.length) return undefined;
  if (!isSame(left.left, right.left) || !isNegative(right.right, left.right)) return undefined;
  return { ...left, left: magnitude(left.left as Expression) };
}

function isCompared(node: AnyNode, operator: '<' | '>'): node is BinaryExpression {
  if (node.type !== 'BinaryExpression' || !node.operator.startsWith(operator)) return false;
  return /^[<>]=?$/.test(node.operator) && node.left.type === 'Identifier';
}

/** true for `-c`. */
function isNegative(node: AnyNode, of: AnyNode): boolean {
  if (node.type === 'UnaryExpression' && node.operator === '-') return isSame(node.argument, of);
  // The ratio -p / q.
  if (node.type !== 'BinaryExpression' || of.type !== 'BinaryExpression') return false;
  if (node.operator !== '/' || of.operator !== '/') return false;
  return isNegative(node.left, of.left) && isSame(node.right, of.right);
}

function magnitude(x: Expression): Expression {
  const nowhere = { start: 0, end: 0 };
  const minus = { type: 'UnaryExpression', operator: '-', prefix: true, argument: x, ...nowhere };
  const test = { type: 'BinaryExpression', left: x, operator: '<', right: literal(0), ...nowhere };
  return choice(test as Expression, minus as Expression, x);
}
