import type { AnyNode, Program } from 'acorn';
import { assign, identifier, isFunction, mapReadable, visitChildren, withBody } from './tree.ts';

/** Gives a global that the function around the whole script uses often a short name there. */
export function nameGlobals(program: Program, globals: readonly string[]): Program {
  const visit = (node: AnyNode): AnyNode => {
    if (!isFunction(node)) return mapReadable(node, visit);
    return globals.reduce<AnyNode>((now, name) => (isFunction(now) ? named(now, name) : now), node);
  };
  return visit(program) as Program;
}

/** What a name takes in the text, and its declaration beside the global. */
const NAME = 2;
const DECLARED = 4;

function named(
  node: Extract<AnyNode, { type: 'FunctionDeclaration' | 'FunctionExpression' }>,
  name: string,
): AnyNode {
  if (usesIn(node.body, name) * (name.length - NAME) <= name.length + DECLARED) return node;
  const short = `global$${name}`;
  const visit = (inner: AnyNode): AnyNode =>
    inner.type === 'Identifier' && inner.name === name
      ? identifier(short)
      : mapReadable(inner, visit);
  const body = node.body.body.map(visit);
  const { names = [] } = node as { names?: string[] };
  return withBody(node, [...names, short], [assign(short, identifier(name)), ...body]);
}

function usesIn(node: AnyNode, name: string): number {
  if (node.type === 'Identifier') return node.name === name ? 1 : 0;
  let uses = 0;
  visitChildren(node, (child) => {
    uses += usesIn(child, name);
  });
  return uses;
}
