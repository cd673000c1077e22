import type { AnyNode, Program, Statement } from 'acorn';
import { isPure } from './is-pure.ts';
import {
  block,
  type FunctionNode,
  isFunction,
  mapChildren,
  withBody,
  withStatements,
} from './tree.ts';
import { assignedBy, collectNames, isOwnStatement, type Name, nodesAround } from './uses.ts';

/**
 * Takes out names that nobody reads, with what is assigned to them, and what comes after a return.
 *
 * @param settled nodes without functions that were found to need nothing taken out, for as long as
 *   the names in them are read; those found are added
 */
export function dropUnused(program: Program, settled = new Set<AnyNode>()): Program {
  const unused = new Map<string, Name>();
  for (const name of collectNames(program).values()) {
    if (name.kind !== 'parameter' && !isRead(name)) unused.set(name.name, name);
  }
  const touched = nodesAround([...unused.values()].flatMap(({ uses }) => uses));
  let functions = 0;
  const visit = (node: AnyNode): AnyNode => {
    if (node.type === 'Identifier' || node.type === 'Literal') return node;
    if (settled.has(node) && !touched.has(node)) return node;
    if (isFunction(node)) functions++;
    const before = functions;
    const changed = without(mapChildren(node, visit), unused);
    // What names a function has is not told by their uses.
    if (changed === node && functions === before && !isFunction(node)) settled.add(node);
    return changed;
  };
  return visit(program) as Program;
}

/** What is left of a node whose children are done. */
function without(node: AnyNode, unused: ReadonlyMap<string, Name>): AnyNode {
  switch (node.type) {
    case 'FunctionDeclaration':
    case 'FunctionExpression': {
      if (node.type === 'FunctionDeclaration' && unused.has(node.id?.name ?? '')) return block([]);
      const { names } = node as FunctionNode;
      return names
        ? withBody(
            node,
            names.filter((name) => !unused.has(name)),
          )
        : node;
    }
    case 'AssignmentExpression': {
      const { left, operator, right } = node;
      if (left.type === 'Identifier') return unused.has(left.name) ? right : node;
      if (left.type !== 'MemberExpression' || left.object.type !== 'Identifier') return node;
      return operator === '=' && unused.has(left.object.name) ? right : node;
    }
    case 'ExpressionStatement':
      return isPure(node.expression) ? block([]) : node;
    case 'IfStatement':
      return isPure(node.test) && [node.consequent, node.alternate].every(isNothing)
        ? block([])
        : node;
    case 'BlockStatement': {
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
    default:
      return node;
  }
}

function isNothing(branch: Statement | null | undefined): boolean {
  return branch == null || (branch.type === 'BlockStatement' && branch.body.length === 0);
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
