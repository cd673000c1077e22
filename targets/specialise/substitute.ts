import type { AnyNode, Expression, Program } from 'acorn';
import { mapChildren } from './tree.ts';
import { type Name, nodesAround } from './uses.ts';

/** Puts what is known of names in their place, wherever they are read. */
export function substitute(
  program: Program,
  known: ReadonlyMap<string, Expression>,
  names: ReadonlyMap<string, Name>,
): Program {
  if (known.size === 0) return program;
  const settle = (value: Expression): Expression => {
    let now = value;
    // An alias of an alias; a ring of them cannot be, each is written before the next.
    for (let i = 0; i < 50 && now.type === 'Identifier' && known.has(now.name); i++) {
      now = known.get(now.name)!;
    }
    return now;
  };
  const uses = [...known.keys()].flatMap((name) => names.get(name)!.uses);
  const written = new Set<AnyNode>();
  for (const { node, kind } of uses) if (kind === 'write') written.add(node);
  const touched = nodesAround(uses);
  // What is read; fields, declarations and targets stay.
  const visit = (node: AnyNode): AnyNode => {
    if (node.type === 'Identifier') {
      return written.has(node) ? node : settle(known.get(node.name) ?? node);
    }
    return touched.has(node) ? mapReadable(node, visit) : node;
  };
  return visit(program) as Program;
}

/** As `mapChildren`, but only over children that are expressions or statements. */
function mapReadable(node: AnyNode, visit: (child: AnyNode) => AnyNode): AnyNode {
  const names = namesIn(node);
  return mapChildren(node, (child) => (names.includes(child) ? child : visit(child)));
}

/** The children of a node that are no more than names. */
function namesIn(node: AnyNode): readonly AnyNode[] {
  switch (node.type) {
    case 'MemberExpression':
      return node.computed ? [] : [node.property];
    case 'Property':
      return [node.key];
    case 'CatchClause':
      return node.param ? [node.param] : [];
    case 'VariableDeclarator':
      return [node.id];
    case 'FunctionDeclaration':
    case 'FunctionExpression':
      return node.id ? [node.id, ...node.params] : node.params;
    default:
      return [];
  }
}
