import type { AnyNode, Program } from 'acorn';
import { block, type FunctionNode, mapChildren } from './tree.ts';
import { collectNames, isInLoop, type Name } from './uses.ts';

/** Puts a function that is handed on at one place alone, and not called, in that place. */
export function placeFunctions(program: Program): Program {
  const placed = new Map<AnyNode, FunctionNode>();
  const moved = new Set<AnyNode>();
  for (const name of collectNames(program).values()) {
    const { declaration } = name;
    if (declaration === undefined || !isHandedOn(name)) continue;
    placed.set(name.uses[0]!.node, declaration);
    moved.add(declaration);
  }
  if (moved.size === 0) return program;
  const visit = (node: AnyNode): AnyNode => {
    if (moved.has(node)) return block([]);
    const declaration = placed.get(node);
    if (declaration === undefined) return mapChildren(node, visit);
    const value = mapChildren(declaration, visit) as AnyNode;
    return { ...value, type: 'FunctionExpression', id: null } as AnyNode;
  };
  return visit(program) as Program;
}

/** true if its own function uses it once, not as what is called, and not in a loop. */
function isHandedOn({ owner, uses }: Name): boolean {
  const [use, another] = uses;
  if (use === undefined || another !== undefined || owner === undefined) return false;
  const around = use.ancestors[use.ancestors.length - 1];
  const isCalled = around?.type === 'CallExpression' && around.callee === use.node;
  return use.within === owner && !isInLoop(use) && !isCalled;
}
