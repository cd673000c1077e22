import type { AnyNode, Expression, Program } from 'acorn';
import { mapReadable } from './tree.ts';
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
    if (!touched.has(node)) return node;
    const declared = declaredIn(node);
    return mapReadable(node, (child) => (declared.includes(child) ? child : visit(child)));
  };
  return visit(program) as Program;
}

/** The children of a node that are names it makes known, not read. */
function declaredIn(node: AnyNode): readonly AnyNode[] {
  switch (node.type) {
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
