import type { AnyNode, Expression, Program } from 'acorn';
import { generate } from 'astring';
import { knownValue } from './fold.ts';
import { assign, block, mapTree, statementsOf } from './tree.ts';
import { plainAssignment } from './variables.ts';

/**
 * Writes `0 - x` as `-x` where the one difference, minus zero in place of zero, cannot be told: on
 * a side of a comparison, and where x was found to be less or more than zero.
 */
export function negate(program: Program): Program {
  return mapTree(program, (node) => {
    if (node.type === 'BinaryExpression' && /^([<>]=?|[!=]==)$/.test(node.operator)) {
      return { ...node, left: minus(node.left), right: minus(node.right) } as AnyNode;
    }
    if (node.type !== 'ConditionalExpression' && node.type !== 'IfStatement') return node;
    const { test } = node;
    if (test.type !== 'BinaryExpression' || knownValue(test.right) !== 0) return node;
    if (test.operator !== '<' && test.operator !== '>') return node;
    const isSame = (value: AnyNode) => {
      const argument = negated(value);
      return argument !== undefined && generate(argument) === generate(test.left);
    };
    if (node.type === 'ConditionalExpression') {
      return isSame(node.consequent) ? { ...node, consequent: minus(node.consequent) } : node;
    }
    const [first, ...rest] = statementsOf(node.consequent);
    const set = first && plainAssignment(first);
    if (set === undefined || !isSame(set.value)) return node;
    return { ...node, consequent: block([assign(set.name, minus(set.value)), ...rest]) } as AnyNode;
  });
}

/** What an expression takes from zero. */
function negated(node: AnyNode): Expression | undefined {
  const is = node.type === 'BinaryExpression' && node.operator === '-';
  return is && knownValue(node.left) === 0 ? node.right : undefined;
}

function minus<T extends AnyNode>(node: T): T | Expression {
  const argument = negated(node);
  if (argument === undefined) return node;
  return { type: 'UnaryExpression', operator: '-', prefix: true, argument, start: 0, end: 0 };
}
