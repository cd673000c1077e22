import type { AnyNode, Program, Statement } from 'acorn';
import {
  assign,
  block,
  type FunctionNode,
  identifier,
  isFunction,
  mapChildren,
  mapReadable,
  some,
  withBody,
} from './tree.ts';
import { collectNames, isLoop, type Name, type Use } from './uses.ts';
import { plainAssignment } from './variables.ts';
import { weight } from './weight.ts';
import { isWrittenFirst } from './written-first.ts';

/**
 * Engines reach a variable of their own function by an index, one of a function around it by a
 * search. So a name that a single inner function uses, and writes before it reads, becomes its
 * own; one that lives on from call to call is fetched once and put back once.
 */
export function localise(program: Program, fetch = true): Program {
  const moved = new Map<FunctionNode, string[]>();
  const kept = new Map<FunctionNode, Map<string, boolean>>();
  const isLeaf = once(({ body }) => !some(body, isFunction));
  const isPlain = once(endsPlainly);
  for (const name of collectNames(program).values()) {
    for (const [user, uses] of fetch ? readersOf(name) : []) {
      if (weight(uses) < 2) continue;
      const names = kept.get(user) ?? new Map<string, boolean>();
      kept.set(user, names.set(name.name, false));
    }
    const user = onlyUser(name);
    if (user === undefined || !isLeaf(user)) continue;
    const own = name.uses.filter(({ within }) => within === user);
    const creation = name.uses.filter(({ within }) => within !== user);
    if (creation.every(isStatement) && isWrittenFirst(user.body, name.name)) {
      moved.set(user, [...(moved.get(user) ?? []), name.name]);
    } else if (fetch && isPlain(user)) {
      const written = own.some(({ kind }) => kind === 'write');
      if (weight(own) <= (written ? 2 : 1)) continue;
      const names = kept.get(user) ?? new Map<string, boolean>();
      kept.set(user, names.set(name.name, written));
    }
  }
  const gone = new Set([...moved.values()].flat());
  const rewrite = (node: AnyNode, within: FunctionNode | undefined): AnyNode => {
    const set = plainAssignment(node);
    if (set && gone.has(set.name) && !moved.get(within!)?.includes(set.name)) return block([]);
    if (!isFunction(node)) return mapChildren(node, (child) => rewrite(child, within));
    const copy = mapChildren(node, (child) => rewrite(child, node));
    const names = (copy.names ?? []).filter((name) => !gone.has(name));
    return withKept(withBody(copy, [...names, ...(moved.get(node) ?? [])]), kept.get(node));
  };
  return rewrite(program, undefined) as Program;
}

/** The answer to a question about a function, found once: most names have the same user. */
function once(answer: (node: FunctionNode) => boolean): (node: FunctionNode) => boolean {
  const known = new Map<FunctionNode, boolean>();
  return (node) => {
    const found = known.get(node) ?? answer(node);
    known.set(node, found);
    return found;
  };
}

/** The inner functions that read a name which is set once, at creation. */
function readersOf(name: Name): Map<FunctionNode, Use[]> {
  const readers = new Map<FunctionNode, Use[]>();
  const [write, another] = name.uses.filter(({ kind }) => kind === 'write');
  if (name.kind !== 'variable' || write === undefined || another !== undefined) return readers;
  if (
    write.within !== name.owner ||
    write.ancestors.slice(write.ancestors.indexOf(name.owner as AnyNode)).some(isLoop)
  )
    return readers;
  for (const use of name.uses) {
    if (use.within === undefined || use.within === name.owner) continue;
    readers.set(use.within, [...(readers.get(use.within) ?? []), use]);
  }
  return readers;
}

/** The one function inside the name's own that uses it after creation. */
function onlyUser(name: Name): FunctionNode | undefined {
  if (name.kind !== 'variable' || name.owner === undefined) return undefined;
  const users = new Set(name.uses.map(({ within }) => within));
  users.delete(name.owner);
  const [user, another] = users;
  if (user === undefined || another !== undefined) return undefined;
  // At creation it may only be given its value.
  const given = name.uses.every(({ within, kind }) => within === user || kind === 'write');
  return given ? user : undefined;
}

function isStatement(use: Use): boolean {
  const statement = use.ancestors[use.ancestors.length - 2];
  const set = statement && plainAssignment(statement);
  return set?.name === use.node.name && !some(set.value, ({ type }) => type === 'CallExpression');
}

/** true if the function leaves only at its end. */
function endsPlainly({ body }: FunctionNode): boolean {
  const before = body.body.slice(0, -1);
  const last = body.body[body.body.length - 1];
  const returns = (node: AnyNode) =>
    some(node, ({ type }) => type === 'ReturnStatement' || type === 'TryStatement', false);
  return (
    !before.some(returns) &&
    (last?.type === 'ReturnStatement' || (last !== undefined && !returns(last)))
  );
}

function withKept(node: FunctionNode, kept: ReadonlyMap<string, boolean> | undefined): AnyNode {
  if (kept === undefined) return node;
  const local = (name: string) => `${name}$local`;
  const visit = (inner: AnyNode): AnyNode => {
    if (inner.type === 'Identifier') {
      return kept.has(inner.name) ? identifier(local(inner.name)) : inner;
    }
    return mapReadable(inner, visit);
  };
  const body = node.body.body.map((one) => visit(one) as Statement);
  const last = body[body.length - 1];
  const fetched = [...kept.keys()].map((name) => assign(local(name), identifier(name)));
  const put = [...kept]
    .filter(([, written]) => written)
    .map(([name]) => assign(name, identifier(local(name))));
  const names = [...(node.names ?? []), ...[...kept.keys()].map(local)];
  if (last?.type !== 'ReturnStatement') {
    return withBody(node, names, [...fetched, ...body, ...put]);
  }
  const returned = `${node.id?.name}$returned`;
  if (put.length === 0) return withBody(node, names, [...fetched, ...body]);
  const value: Statement[] = last.argument ? [assign(returned, last.argument)] : [];
  const leave: Statement = { ...last, argument: last.argument ? identifier(returned) : null };
  const all = [...fetched, ...body.slice(0, -1), ...value, ...put, leave];
  return withBody(node, last.argument ? [...names, returned] : names, all);
}
