import type { Program } from 'acorn';
import { interferenceIn, isSimple } from './interference.ts';
import { block, type FunctionNode, isFunction, mapTree, withBody } from './tree.ts';
import { assignedBy, collectNames, type Name } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Lets variables of a function that are never needed at the same time share one: a small engine
 * has room for a few hundred values on its stack, and fewer names are shorter names. Nothing else
 * can be told from names after it.
 */
export function shareNames(program: Program): Program {
  const names = collectNames(program);
  const owned = new Map<FunctionNode, Name[]>();
  const unused = new Set<string>();
  for (const name of names.values()) {
    const { owner, kind, uses } = name;
    if (kind === 'variable' && uses.length === 0) unused.add(name.name);
    if (kind === 'function' || owner === undefined || unused.has(name.name)) continue;
    if (!owned.has(owner)) owned.set(owner, []);
    owned.get(owner)!.push(name);
  }
  const shared = new Map<string, string>();
  for (const [owner, own] of owned) if (isSimple(owner)) share(owner, own, shared);
  return rename(program, shared, unused);
}

/** Gives each name one that is free while it lasts; that of what it copies, if it is. */
function share(owner: FunctionNode, own: readonly Name[], shared: Map<string, string>): void {
  const clashes = interferenceIn(owner, new Set(own.map(({ name }) => name)));
  /** The names that share each one. */
  const slots = new Map<string, string[]>();
  // Those with most uses first: they come together, and few names are the shortest.
  for (const one of own.toSorted((a, b) => b.uses.length - a.uses.length)) {
    const { name } = one;
    const isFree = (slot: string) =>
      slots.get(slot)!.every((other) => !clashes.get(name)!.has(other));
    const copied = copiedBy(one, shared);
    const slot = copied.find(isFree) ?? [...slots.keys()].find(isFree) ?? name;
    shared.set(name, slot);
    slots.set(slot, [...(slots.get(slot) ?? []), name]);
  }
}

/** What the names that it is a copy of are called now. */
function copiedBy({ uses }: Name, shared: ReadonlyMap<string, string>): string[] {
  return uses.flatMap((use) => {
    const value = use.kind === 'write' ? assignedBy(use) : undefined;
    return (value?.type === 'Identifier' && shared.get(value.name)) || [];
  });
}

function rename(
  program: Program,
  shared: ReadonlyMap<string, string>,
  unused: ReadonlySet<string>,
): Program {
  const nameOf = (name: string) => shared.get(name) ?? name;
  return mapTree(program, (node) => {
    if (node.type === 'Identifier') return { ...node, name: nameOf(node.name) };
    if (node.type === 'ExpressionStatement') {
      const set = plainAssignment(node);
      return set?.value.type === 'Identifier' && set.value.name === set.name ? block([]) : node;
    }
    if (!isFunction(node)) return node;
    const given = new Set(node.params.map((one) => (one.type === 'Identifier' ? one.name : '')));
    const used = (node.names ?? []).filter((name) => !unused.has(name));
    const own = [...new Set(used.map(nameOf))];
    return withBody(
      node,
      own.filter((name) => !given.has(name)),
    );
  });
}
