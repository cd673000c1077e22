import type { AnyNode, Program } from 'acorn';
import { isPure } from './is-pure.ts';
import { block, isFunction, mapTree, withBody, withStatements } from './tree.ts';
import { assignedBy, collectNames, isOwnStatement, type Name } from './uses.ts';

/**
 * Takes out names that nobody reads, with what is assigned to them, and what comes after a return.
 */
export function dropUnused(program: Program): Program {
  const unused = new Set<string>();
  for (const name of collectNames(program).values()) {
    if (name.kind !== 'parameter' && !isRead(name)) unused.add(name.name);
  }
  const used = (name: string) => !unused.has(name);
  return mapTree(program, (node) => {
    if (node.type === 'FunctionDeclaration' && node.id && !used(node.id.name)) return block([]);
    if (isFunction(node) && node.names) {
      return withBody(node, node.names.filter(used));
    }
    if (node.type === 'AssignmentExpression') {
      const { left, operator, right } = node;
      if (left.type === 'Identifier') return used(left.name) ? node : right;
      if (left.type !== 'MemberExpression' || left.object.type !== 'Identifier') return node;
      return operator !== '=' || used(left.object.name) ? node : right;
    }
    if (node.type === 'ExpressionStatement') {
      return isPure(node.expression) ? block([]) : node;
    }
    if (node.type === 'IfStatement' && isPure(node.test)) {
      const empty = [node.consequent, node.alternate].every(
        (branch) =>
          branch == null || (branch.type === 'BlockStatement' && branch.body.length === 0),
      );
      if (empty) return block([]);
    }
    if (node.type === 'BlockStatement') {
      const end = node.body.findIndex(({ type }) => type === 'ReturnStatement');
      const body = node.body.flatMap((one, i) =>
        one.type === 'BlockStatement'
          ? one.body
          : end >= 0 && i > end && one.type !== 'FunctionDeclaration'
            ? []
            : [one],
      );
      return withStatements(node, body);
    }
    return node;
  });
}

function isRead(name: Name): boolean {
  return name.uses.some(({ kind }) => kind === 'read') && !isOnlyFilled(name);
}

/** true for a list whose elements are given values that nobody reads. */
function isOnlyFilled({ kind, uses }: Name): boolean {
  if (kind !== 'variable') return false;
  return uses.every((use) => {
    if (use.kind === 'write') {
      return isOwnStatement(use) && assignedBy(use)?.type === 'ArrayExpression';
    }
    const [statement, set, element]: (AnyNode | undefined)[] = use.ancestors.slice(-3);
    return (
      statement?.type === 'ExpressionStatement' &&
      set?.type === 'AssignmentExpression' &&
      set.operator === '=' &&
      set.left === element &&
      element?.type === 'MemberExpression' &&
      element.object === use.node &&
      element.computed &&
      isPure(element.property)
    );
  });
}
