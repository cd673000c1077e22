import type { AnyNode, Expression } from 'acorn';

/**
 * Writes `test ? x = a : x = b` as `x = test ? a : b`, also where either branch does more before:
 * it is worked out in the same order.
 */
export function joinAlikeBranches(node: AnyNode): AnyNode {
  if (node.type !== 'ConditionalExpression') return node;
  const [then, otherwise] = [givenLast(node.consequent), givenLast(node.alternate)];
  if (then === undefined || then.name !== otherwise?.name) return node;
  const right = { ...node, consequent: then.value, alternate: otherwise.value };
  return { ...then.step, right } as AnyNode;
}

/** The name that an expression gives a value last, and the expression without that. */
function givenLast(
  node: Expression,
): { name: string; step: Expression; value: Expression } | undefined {
  if (node.type === 'SequenceExpression') {
    const given = givenLast(node.expressions[node.expressions.length - 1]!);
    if (given === undefined) return undefined;
    const expressions = [...node.expressions.slice(0, -1), given.value];
    return { ...given, value: { ...node, expressions } };
  }
  if (node.type !== 'AssignmentExpression' || node.operator !== '=') return undefined;
  if (node.left.type !== 'Identifier') return undefined;
  return { name: node.left.name, step: node, value: node.right };
}
