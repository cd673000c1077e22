import type { AnyNode, Program, Statement } from 'acorn';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { countingLoop } from './loops.ts';
import {
  assign,
  block,
  elementOf,
  expressionStatement,
  type FunctionNode,
  identifier,
  isFunction,
  literal,
  mapChildren,
  mapReadable,
  some,
  statementsOf,
  targetOf,
  withBody,
} from './tree.ts';
import {
  assignedBy,
  collectNames,
  isOwnStatement,
  isStraight,
  type Name,
  readsOf,
  type Use,
  writesOf,
} from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Where a function takes over many elements of a list into variables, as the stages do those of a
 * setup, copies the list as it is then instead, and reads that: less text, but an element is slower
 * to read.
 */
export function readThrough(program: Program): Program {
  const names = collectNames(program);
  for (const loader of names.values()) {
    const plan = loader.declaration && planFor(loader, names);
    if (plan !== undefined) return readThrough(apply(program, plan));
  }
  return program;
}

/** Less than this is not worth a list. */
const WORTH = 20;
/** What the copying takes, and what a variable takes where it is made, filled and read. */
const COPIED = 38;
const MADE = 14;
const READ = 3;

interface Plan {
  loader: FunctionNode;
  owner: FunctionNode;
  list: string;
  /** For each variable the place in the list. */
  places: Map<string, number>;
}

function planFor(loader: Name, names: ReadonlyMap<string, Name>): Plan | undefined {
  const { owner, declaration } = loader;
  const ran = runBy(loader);
  if (owner === undefined || ran === undefined) return undefined;
  // What it does not come to is not taken over.
  if (some(declaration!.body, ({ type }) => type === 'ReturnStatement', false)) return undefined;
  for (const list of names.values()) {
    if (list.owner !== owner || !isSteady(list, loader, names)) continue;
    const places = new Map<string, number>();
    let saved = -COPIED;
    for (const name of names.values()) {
      const place = name.owner === owner ? placeOf(name, list, loader, ran, names) : undefined;
      const gain = MADE - READ * readsOf(name).length;
      if (place === undefined || gain <= 0) continue;
      places.set(name.name, place);
      saved += gain;
    }
    if (saved >= WORTH) return { loader: declaration!, owner, list: list.name, places };
  }
  return undefined;
}

/** The call of the function by its owner itself, whenever that is run. */
function runBy({ owner, uses }: Name): Use | undefined {
  return uses.find(({ within, ancestors, node }) => {
    const [statement, call] = ancestors.slice(-2);
    const isCall = call?.type === 'CallExpression' && call.callee === node;
    const isOwn = within === owner && statement?.type === 'ExpressionStatement' && isCall;
    const around = ancestors.slice(ancestors.lastIndexOf(owner as AnyNode) + 1, -2);
    return isOwn && around.every(({ type }) => type === 'BlockStatement');
  });
}

/** true for a list that is made once, by a call, and that the loader leaves as it is. */
function isSteady(list: Name, loader: Name, names: ReadonlyMap<string, Name>): boolean {
  const [write, another] = writesOf(list);
  if (list.kind !== 'variable' || write === undefined || another !== undefined) return false;
  if (write.within !== list.owner || !isOwnStatement(write) || !isStraight(write)) return false;
  const made = assignedBy(write);
  if (made?.type !== 'CallExpression' || made.callee.type !== 'Identifier') return false;
  const maker = names.get(made.callee.name)?.declaration;
  if (maker === undefined || !isMaker(maker) || !made.arguments.every(isPure)) return false;
  const reached = reachedFrom(loader.declaration!, names);
  return list.uses.every((use) => {
    if (use.kind === 'write' || !reached.has(use.within!)) return true;
    const [around, element] = use.ancestors.slice(-2);
    if (isAlias(use, reached, names)) return true;
    const isRead = element?.type === 'MemberExpression' && element.object === use.node;
    const isTarget = /^(Assignment|Update)Expression$/.test(around?.type ?? '') && isRead;
    const isFilled = isTarget && (around as { left?: AnyNode }).left === element;
    return isRead && !isFilled && around?.type !== 'UpdateExpression';
  });
}

/** true if the list gets another name, which is not used in those functions. */
function isAlias(
  { node, ancestors }: Use,
  functions: ReadonlySet<FunctionNode>,
  names: ReadonlyMap<string, Name>,
): boolean {
  const set = ancestors[ancestors.length - 1];
  if (set?.type !== 'AssignmentExpression' || set.operator !== '=' || set.right !== node)
    return false;
  const name = set.left.type === 'Identifier' ? names.get(set.left.name) : undefined;
  return (
    name !== undefined &&
    isOwnStatement(name.uses.find((use) => use.node === set.left)!) &&
    readsOf(name).every(({ within }) => !functions.has(within!))
  );
}

/** true if all that a function does is to make a list of its own and give it back. */
function isMaker({ names = [], body }: FunctionNode): boolean {
  return !some(body, (node) => {
    if (node.type === 'CallExpression') {
      const { callee } = node;
      const pushes =
        callee.type === 'MemberExpression' &&
        callee.object.type === 'Identifier' &&
        names.includes(callee.object.name);
      return !pushes;
    }
    const target = targetOf(node);
    return target !== undefined && !(target.type === 'Identifier' && names.includes(target.name));
  });
}

/** A function and all that it calls. */
function reachedFrom(from: FunctionNode, names: ReadonlyMap<string, Name>): Set<FunctionNode> {
  const reached = new Set([from]);
  for (const node of reached) {
    for (const { declaration, uses } of names.values()) {
      if (declaration && uses.some(({ within }) => within === node)) reached.add(declaration);
    }
  }
  return reached;
}

/** The place in the list of what the loader gives a name that else is given literals alone. */
function placeOf(
  name: Name,
  list: Name,
  loader: Name,
  ran: Use,
  names: ReadonlyMap<string, Name>,
): number | undefined {
  if (name.kind !== 'variable') return undefined;
  const loads = writesOf(name).filter(({ within }) => within === loader.declaration);
  const [load, another] = loads;
  if (load === undefined || another !== undefined || !isStraight(load)) return undefined;
  const value = isOwnStatement(load) ? assignedBy(load) : undefined;
  if (value?.type !== 'MemberExpression' || !value.computed) return undefined;
  if (value.object.type !== 'Identifier' || value.object.name !== list.name) return undefined;
  const place = knownValue(value.property);
  const others = writesOf(name).filter((write) => write !== load);
  const isPlain = others.every((write) => {
    const given = assignedBy(write);
    const isFirst = write.within === name.owner && write.at < ran.at;
    return isFirst && given !== undefined && knownValue(given) !== undefined;
  });
  const early = reachedAtCreation(loader, names);
  // While it is run, some are taken over and others are not yet.
  const during = reachedFrom(loader.declaration!, names);
  const isLate = readsOf(name).every(
    ({ within }) => within !== name.owner && !during.has(within!) && !early.has(within!),
  );
  return isPlain && isLate && typeof place === 'number' ? place : undefined;
}

/** Functions that may run before the loader has run once. */
function reachedAtCreation(
  { owner, declaration }: Name,
  names: ReadonlyMap<string, Name>,
): Set<FunctionNode> {
  const early = new Set<FunctionNode>();
  for (const name of names.values()) {
    if (name.declaration === undefined || name.declaration === declaration) continue;
    const isCalled = name.uses.some(({ within, ancestors, node }) => {
      const call = ancestors[ancestors.length - 1];
      return within === owner && call?.type === 'CallExpression' && call.callee === node;
    });
    if (isCalled) for (const one of reachedFrom(name.declaration, names)) early.add(one);
  }
  return early;
}

function apply(program: Program, { loader, owner, list, places }: Plan): Program {
  const copy = `${list}$${loader.id!.name}$then`;
  const at = `${copy}$at`;
  const visit = (node: AnyNode): AnyNode => {
    if (isFunction(node)) {
      const body = node.body.body.flatMap((one) => statementsOf(visit(one) as Statement));
      const own = (node.names ?? []).filter((name) => !places.has(name));
      if (node !== loader) return withBody(node, node === owner ? [...own, copy] : own, body);
      const most = Math.max(...places.values());
      return withBody(node, [...own, at], [...copying(copy, list, at, most + 1), ...body]);
    }
    const set = plainAssignment(node);
    if (set !== undefined && places.has(set.name)) return block([]);
    if (set?.name === list) return block([node as Statement, assign(copy, set.value)]);
    const place = node.type === 'Identifier' ? places.get(node.name) : undefined;
    return place === undefined ? mapReadable(node, visit) : elementOf(copy, literal(place));
  };
  return mapChildren(program, visit);
}

/** `for (at = 0; at < count; at++) to[at] = from[at];` */
function copying(to: string, from: string, at: string, count: number): Statement[] {
  const [left, right] = [elementOf(to, identifier(at)), elementOf(from, identifier(at))];
  const step = { type: 'AssignmentExpression' as const, operator: '=' as const, left, right };
  return countingLoop(at, count, [expressionStatement({ ...step, start: 0, end: 0 })]);
}
