import type { AnyNode, Program } from 'acorn';
import { generate } from 'astring';
import {
  block,
  callOf,
  type FunctionNode,
  functionReturning,
  identifier,
  isFunction,
  mapReadable,
  mapTree,
  some,
} from './tree.ts';
import { collectNames, type Name } from './uses.ts';

/**
 * Leaves one of functions that do the same, where it is seen wherever another one is called; one
 * that hands on to another does the same as that.
 */
export function mergeFunctions(program: Program): Program {
  const names = collectNames(program);
  const kept: [text: string, name: Name][] = [];
  const stands = new Map<string, string>();
  const dropped = new Set<AnyNode>();
  // The outermost are seen by most.
  const all = [...names.values()].sort((a, b) => a.around.length - b.around.length);
  for (const name of all) {
    const { declaration, around } = name;
    if (declaration === undefined || some(declaration.body, isFunction)) continue;
    const text = textOf(declaration);
    const isSeen = (other: Name) => other.around.every((one, i) => one === around[i]);
    const same = kept.find(([other, one]) => {
      return (other === text || handsOn(one) === text) && isSeen(one);
    });
    if (same === undefined || !isOnlyCalled(name)) kept.push([text, name]);
    else {
      stands.set(name.name, same[1].name);
      dropped.add(declaration);
    }
  }
  if (dropped.size === 0) return program;
  const visit = (node: AnyNode): AnyNode => {
    if (dropped.has(node)) return block([]);
    if (node.type === 'Identifier') return identifier(stands.get(node.name) ?? node.name);
    return mapReadable(node, visit);
  };
  return visit(program) as Program;
}

/** How a function is written with its own names numbered; the names of others are all distinct. */
function textOf(node: FunctionNode): string {
  const own = new Map<string, string>();
  const number = (name: string) => own.set(name, `own$${own.size}`);
  for (const param of node.params) if (param.type === 'Identifier') number(param.name);
  for (const name of node.names ?? []) number(name);
  const body = mapTree(node.body, (one) =>
    one.type === 'Identifier' ? identifier(own.get(one.name) ?? one.name) : one,
  );
  return `${node.params.length} ${generate(body)}`;
}

/** How a function is written that hands on what it is given, and nothing else. */
function handsOn({ name, declaration }: Name): string {
  const given = declaration!.params.map((_, i) => identifier(`own$${i}`));
  const does = functionReturning(name, [], callOf(name, given)).body;
  return `${given.length} ${generate(does)}`;
}

function isOnlyCalled({ uses }: Name): boolean {
  return uses.every(({ node, ancestors }) => {
    const call = ancestors[ancestors.length - 1];
    return call?.type === 'CallExpression' && call.callee === node;
  });
}
