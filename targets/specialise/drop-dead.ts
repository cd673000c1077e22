import type { AnyNode, Program } from 'acorn';
import { isSimple, liveAfter } from './interference.ts';
import { isPure } from './is-pure.ts';
import { block, type FunctionNode, mapTree } from './tree.ts';
import { collectNames } from './uses.ts';
import { plainAssignment } from './variables.ts';

/** Takes out steps that give a variable of the function a value that is never read. */
export function dropDead(program: Program): Program {
  const owned = new Map<FunctionNode, Set<string>>();
  for (const { name, kind, owner } of collectNames(program).values()) {
    if (kind === 'function' || owner === undefined) continue;
    owned.set(owner, (owned.get(owner) ?? new Set()).add(name));
  }
  const dead = new Set<AnyNode>();
  for (const [owner, own] of owned) {
    if (!isSimple(owner)) continue;
    for (const [statement, live] of liveAfter(owner, own)) {
      const set = plainAssignment(statement);
      if (set === undefined || !own.has(set.name) || live.has(set.name)) continue;
      if (isPure(set.value)) dead.add(statement);
    }
  }
  return dead.size === 0
    ? program
    : mapTree(program, (node) => (dead.has(node) ? block([]) : node));
}
