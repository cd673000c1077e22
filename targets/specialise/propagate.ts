import type { AnyNode, Expression, Program } from 'acorn';
import { generate } from 'astring';
import { copiesIn } from './copies.ts';
import { constantValue, knownValue } from './fold.ts';
import { substitute } from './substitute.ts';
import { type FunctionNode, isFunction, some } from './tree.ts';
import {
  assignedBy,
  collectNames,
  isInLoop,
  isStraight,
  loopsAround,
  type Name,
  readsOf,
  type Use,
  writesOf,
} from './uses.ts';

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
