import type { AnyNode, Program } from 'acorn';
import { block, type FunctionNode, isFunction, mapTree, some, withBody } from './tree.ts';
import { assignedBy, collectNames, isLoop, loopsAround, type Name, type Use } from './uses.ts';
import { plainAssignment } from './variables.ts';
import { isWrittenFirst } from './written-first.ts';

/**
 * Lets variables of a function that are never needed at the same time share one: a small engine
 * has room for a few hundred values on its stack, and fewer names are shorter names. Nothing else
 * can be told from names after it.
 */
export function shareNames(program: Program): Program {
  const names = collectNames(program);
  const extents = extentsOf(names.values());
  const owned = new Map<FunctionNode, Name[]>();
  for (const name of names.values()) {
    const { owner, kind } = name;
    if (kind === 'function' || owner === undefined) continue;
    if (!owned.has(owner)) owned.set(owner, []);
    owned.get(owner)!.push(name);
  }
  const shared = new Map<string, string>();
  for (const [owner, own] of owned) {
    if (isSimple(owner))
      share(
        own.flatMap((name) => spanOf(name, extents) ?? []),
        shared,
      );
  }
  return rename(program, shared);
}

/** From where to where a name is needed, in the order of its function. */
interface Span {
  name: string;
  start: number;
  end: number;
  /** The name of which it starts as a copy. */
  copied: string | undefined;
}

type Extents = ReadonlyMap<AnyNode, { from: number; to: number }>;

function spanOf(name: Name, extents: Extents): Span | undefined {
  const { uses, kind } = name;
  const [first] = uses;
  const last = uses[uses.length - 1];
  if (first === undefined || last === undefined) return undefined;
  const given = kind === 'parameter' || first.kind === 'read';
  const span = { start: given ? -1 : first.at, end: last.at };
  for (const loop of new Set(uses.flatMap(loopsAround))) {
    const within = uses.every(({ ancestors }) => ancestors.includes(loop));
    if (within && !given && isWrittenFirst(loop, name.name)) continue;
    // What one round leaves, the next may read.
    const { from, to } = extents.get(loop)!;
    span.start = Math.min(span.start, from);
    span.end = Math.max(span.end, to);
  }
  const value = assignedBy(first);
  const copied = value?.type === 'Identifier' ? value.name : undefined;
  return { name: name.name, ...span, copied };
}

/** true if all its names are its own: no function inside, no `catch`. */
function isSimple(owner: FunctionNode): boolean {
  return !some(owner.body, (node) => isFunction(node) || node.type === 'TryStatement');
}

/** The first and the last use in each loop. */
function extentsOf(names: Iterable<Name>): Extents {
  const extents = new Map<AnyNode, { from: number; to: number }>();
  const widen = (loop: AnyNode, { at }: Use) => {
    const { from, to } = extents.get(loop) ?? { from: at, to: at };
    extents.set(loop, { from: Math.min(from, at), to: Math.max(to, at) });
  };
  for (const { uses } of names) {
    for (const use of uses) for (const loop of use.ancestors.filter(isLoop)) widen(loop, use);
  }
  return extents;
}

/** Gives each span a name that is free while it lasts; that of what it copies, if it is. */
function share(spans: readonly Span[], shared: Map<string, string>): void {
  const ends = new Map<string, number>();
  for (const { name, start, end, copied } of spans.toSorted((a, b) => a.start - b.start)) {
    const free = [...ends].filter(([, until]) => until < start).map(([slot]) => slot);
    const source = copied === undefined ? undefined : shared.get(copied);
    const slot = source !== undefined && free.includes(source) ? source : (free[0] ?? name);
    shared.set(name, slot);
    ends.set(slot, end);
  }
}

function rename(program: Program, shared: ReadonlyMap<string, string>): Program {
  const nameOf = (name: string) => shared.get(name) ?? name;
  return mapTree(program, (node) => {
    if (node.type === 'Identifier') return { ...node, name: nameOf(node.name) };
    if (node.type === 'ExpressionStatement') {
      const set = plainAssignment(node);
      return set?.value.type === 'Identifier' && set.value.name === set.name ? block([]) : node;
    }
    if (!isFunction(node)) return node;
    const given = new Set(node.params.map((one) => (one.type === 'Identifier' ? one.name : '')));
    const own = [...new Set((node.names ?? []).map(nameOf))];
    return withBody(
      node,
      own.filter((name) => !given.has(name)),
    );
  });
}
