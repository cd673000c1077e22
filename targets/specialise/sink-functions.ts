import type { AnyNode, Program } from 'acorn';
import { block, type FunctionNode, isFunction, mapChildren, withBody } from './tree.ts';
import { collectNames, type Name, nodesAroundNames } from './uses.ts';

/**
 * Moves a function that is used inside one other function alone into that one, where it can reach
 * its variables; only into functions that make others, as those run once and not every tick.
 */
export function sinkFunctions(program: Program): Program {
  const moves = new Map<FunctionNode, FunctionNode>();
  const around = new Set<FunctionNode>();
  const moved: Name[] = [];
  for (const name of collectNames(program).values()) {
    const target = targetOf(name);
    if (target === undefined || moves.has(target) || around.has(name.declaration!)) continue;
    // A function and one inside it, or the one it moves to, do not move at the same time.
    if (name.around.some((one) => moves.has(one))) continue;
    moves.set(name.declaration!, target);
    moved.push(name);
    for (const one of [...name.around, target]) around.add(one);
  }
  if (moves.size === 0) return program;
  const touched = nodesAroundNames(moved);
  const rewrite = (node: AnyNode): AnyNode => {
    if (isFunction(node) && moves.has(node)) return block([]);
    if (!touched.has(node)) return node;
    const copy = mapChildren(node, rewrite);
    if (!isFunction(node) || !isFunction(copy)) return copy;
    const arriving = [...moves].flatMap(([one, target]) => (target === node ? [one] : []));
    if (arriving.length === 0) return copy;
    return withBody(copy, copy.names ?? [], [...arriving, ...copy.body.body]);
  };
  return rewrite(program) as Program;
}

/** The outermost function, inside the one that declares the name, that holds all of its uses. */
function targetOf({ declaration, owner, uses }: Name): FunctionNode | undefined {
  if (declaration === undefined || uses.length === 0) return undefined;
  const around = uses.map(({ ancestors }) => {
    const functions = ancestors.filter(isFunction);
    return functions[owner === undefined ? 0 : functions.indexOf(owner) + 1];
  });
  const [target] = around;
  if (target === undefined || target === declaration) return undefined;
  if (!around.every((one) => one === target)) return undefined;
  return target.body.body.some(isFunction) ? target : undefined;
}
