import type { AnyNode, Expression, Identifier, Program } from 'acorn';
import { generate } from 'astring';
import { constantValue, knownValue } from './fold.ts';
import { type FunctionNode, isFunction, mapChildren, some } from './tree.ts';
import {
  assignedBy,
  collectNames,
  isInLoop,
  isStraight,
  loopsAround,
  type Name,
  nodesAround,
  readsOf,
  type Use,
  writesOf,
} from './uses.ts';
import { isWrittenFirst } from './written-first.ts';

/** Puts literals and other names in place of names that always stand for them. */
export function propagate(program: Program): Program {
  const names = collectNames(program);
  const called = callsFromCreation(names);
  const known = new Map<string, Expression>();
  for (const name of names.values()) {
    const value = constantOf(name, called) ?? aliasOf(name, names, called);
    if (value !== undefined) known.set(name.name, value);
  }
  for (const [name, source] of copiesIn(names, known)) known.set(name, source);
  return substitute(program, known, names);
}

function substitute(
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
    return touched.has(node) ? mapReadable(node, visit) : node;
  };
  return visit(program) as Program;
}

/** As `mapChildren`, but only over children that are expressions or statements. */
function mapReadable(node: AnyNode, visit: (child: AnyNode) => AnyNode): AnyNode {
  const names = namesIn(node);
  return mapChildren(node, (child) => (names.includes(child) ? child : visit(child)));
}

/** The children of a node that are no more than names. */
function namesIn(node: AnyNode): readonly AnyNode[] {
  switch (node.type) {
    case 'MemberExpression':
      return node.computed ? [] : [node.property];
    case 'Property':
      return [node.key];
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

/** The literal, or ratio of literals, that a name stands for whenever it is read. */
function constantOf(name: Name, called: ReadonlySet<FunctionNode>): Expression | undefined {
  if (name.kind !== 'variable') return undefined;
  const writes = writesOf(name);
  const last = writes[writes.length - 1];
  if (last === undefined) return undefined;
  const value = assignedBy(last);
  if (value === undefined || !isConstant(value, name)) return undefined;
  if (writes.every((write) => isSameNumber(assignedBy(write), value))) return value;
  return isSettledBy(name, writes, last, called) ? value : undefined;
}

/** true for the same literal; nothing is read before it is written. */
function isSameNumber(node: AnyNode | undefined, value: AnyNode): boolean {
  if (node === value) return true;
  const known = node && knownValue(node);
  return known !== undefined && Object.is(known, knownValue(value));
}

/** true if all writes happen at creation, one after the other, and all reads after the last. */
function isSettledBy(
  name: Name,
  writes: readonly Use[],
  last: Use,
  called: ReadonlySet<FunctionNode>,
): boolean {
  const straight = writes.every((write) => write.within === name.owner && isStraight(write));
  return (
    straight &&
    readsOf(name).every((read) =>
      read.within === name.owner ? read.at > last.at : !called.has(read.within!),
    )
  );
}

/** true for an expression of literals that is short, or read at one place alone. */
function isConstant(node: AnyNode, { uses }: Name): node is Expression {
  if (knownValue(node) !== undefined) return true;
  return constantValue(node) !== undefined && (uses.length <= 2 || generate(node).length <= SHORT);
}

/** As long as two whole numbers of four digits, and the sign between. */
const SHORT = 11;

/** Functions that may run while a function that declares others is still being run. */
function callsFromCreation(names: ReadonlyMap<string, Name>): ReadonlySet<FunctionNode> {
  const calls = new Map<FunctionNode | undefined, Set<FunctionNode>>();
  for (const { declaration, uses } of names.values()) {
    if (declaration === undefined) continue;
    for (const use of uses) {
      const around = use.ancestors[use.ancestors.length - 1];
      if (around?.type !== 'CallExpression' || around.callee !== use.node) continue;
      const set = calls.get(use.within) ?? new Set();
      calls.set(use.within, set.add(declaration));
    }
  }
  const reached = new Set<FunctionNode>();
  const reach = (from: FunctionNode | undefined): void => {
    for (const next of calls.get(from) ?? []) {
      if (reached.has(next)) continue;
      reached.add(next);
      reach(next);
    }
  };
  for (const from of calls.keys()) {
    if (from !== undefined && some(from.body, isFunction)) reach(from);
  }
  return reached;
}

/** The name that a name is always the same as, as long as it is read. */
function aliasOf(
  name: Name,
  names: ReadonlyMap<string, Name>,
  called: ReadonlySet<FunctionNode>,
): Expression | undefined {
  if (name.kind !== 'variable') return undefined;
  const writes = writesOf(name);
  const copy = writes[writes.length - 1];
  if (copy === undefined) return undefined;
  const value = assignedBy(copy);
  if (value?.type !== 'Identifier') return undefined;
  if (writes.length > 1 && !isSettledBy(name, writes, copy, called)) return undefined;
  const source = names.get(value.name);
  if (source === undefined || source === name) return undefined;
  if (source.kind === 'function') return value;
  if (copy.within !== name.owner) return undefined;
  return staysAfter(source, copy, name) ? value : undefined;
}

/**
 * Names that are a copy of another one as long as they are read, which changes later on. None is
 * copied in turn, nor copies what is itself replaced: what holds for each need not for a chain.
 */
function copiesIn(
  names: ReadonlyMap<string, Name>,
  known: ReadonlyMap<string, Expression>,
): Map<string, Identifier> {
  const copies = new Map<string, Identifier>();
  const taken = new Set<string>();
  for (const value of known.values()) if (value.type === 'Identifier') taken.add(value.name);
  for (const name of names.values()) {
    const [copy, another] = writesOf(name);
    if (name.kind !== 'variable' || copy === undefined || another !== undefined) continue;
    const value = assignedBy(copy);
    if (value?.type !== 'Identifier' || known.has(name.name) || known.has(value.name)) continue;
    if (taken.has(name.name) || copies.has(value.name)) continue;
    const source = names.get(value.name);
    if (source === undefined || !staysWhile(source, copy, name)) continue;
    copies.set(name.name, value);
    taken.add(value.name);
  }
  return copies;
}

/** true if nothing writes the source from the copy to the last read of it in the same round. */
function staysWhile(source: Name, copy: Use, name: Name): boolean {
  if (source === name || source.kind === 'function') return false;
  const { within } = copy;
  // What is owned by a function around is quicker by a copy.
  if (within === undefined || source.owner !== within || name.owner !== within) return false;
  if ([...source.uses, ...name.uses].some((use) => use.within !== within)) return false;
  const around = loopsAround(copy);
  const loop = around[around.length - 1];
  const reads = readsOf(name);
  if (reads.some(({ at, ancestors }) => at < copy.at || (loop && !ancestors.includes(loop)))) {
    return false;
  }
  if (!isWrittenFirst(loop ?? within.body, name.name)) return false;
  const last = Math.max(...reads.map(({ at }) => at));
  const inner = new Set(reads.flatMap(loopsAround).filter((one) => !around.includes(one)));
  return writesOf(source).every(
    ({ at, ancestors }) => (at < copy.at || at > last) && !ancestors.some((one) => inner.has(one)),
  );
}

/** true if nothing writes the source between the copy and any read of the copied name. */
function staysAfter(source: Name, copy: Use, name: Name): boolean {
  const writes = writesOf(source);
  if (writes.length === 0) return source.kind === 'parameter';
  const settled = writes.every((write) => write.within === source.owner && !isInLoop(write));
  const near = readsOf(name).every((read) => read.within === copy.within);
  if (settled && source.owner !== copy.within && (near || writes.length === 1)) return true;
  const before = writes.every(
    (write) =>
      (write.within === copy.within &&
        write.at < copy.at &&
        !loopsAround(write).some((loop) => loopsAround(copy).includes(loop))) ||
      (write.within === source.owner && source.owner !== copy.within && !isInLoop(write)),
  );
  if (!before) return false;
  if (settled && writes.length === 1) return true;
  return readsOf(name).every((read) => read.within === copy.within && read.at > copy.at);
}
