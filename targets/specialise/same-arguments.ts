import type { AnyNode, CallExpression, Expression, Program } from 'acorn';
import { knownValue } from './fold.ts';
import { assign, type FunctionNode, isFunction, mapChildren, withBody } from './tree.ts';
import { collectNames, isInLoop, type Name, nodesAroundNames, writesOf } from './uses.ts';

/** Takes out parameters that every call gives the same literal, or the same settled name. */
export function dropSameArguments(program: Program): Program {
  const names = collectNames(program);
  const dropped = new Map<FunctionNode, Map<number, Expression>>();
  const calls = new Map<AnyNode, ReadonlySet<number>>();
  const changed: Name[] = [];
  for (const name of names.values()) {
    const sites = callsOf(name);
    if (sites === undefined) continue;
    const same = sameArguments(name, sites, names);
    if (same.size === 0) continue;
    dropped.set(name.declaration!, same);
    changed.push(name);
    for (const site of sites) calls.set(site, new Set(same.keys()));
  }
  if (dropped.size === 0) return program;
  const touched = nodesAroundNames(changed);
  for (const one of dropped.keys()) touched.add(one);
  const rewrite = (node: AnyNode): AnyNode => {
    if (!touched.has(node)) return node;
    const copy = mapChildren(node, rewrite);
    const gone = calls.get(node);
    if (gone && copy.type === 'CallExpression') {
      return { ...copy, arguments: copy.arguments.filter((_, i) => !gone.has(i)) };
    }
    const same = isFunction(node) ? dropped.get(node) : undefined;
    return same && isFunction(copy) ? withoutParameters(copy, same) : copy;
  };
  return rewrite(program) as Program;
}

function withoutParameters(node: FunctionNode, same: ReadonlyMap<number, Expression>): AnyNode {
  const given = [...same].map(([i, value]) => ({ name: parameterOf(node, i), value }));
  const functions = node.body.body.filter(isFunction);
  const rest = node.body.body.filter((one) => !isFunction(one));
  const body = [...functions, ...given.map(({ name, value }) => assign(name, value)), ...rest];
  const names = [...(node.names ?? []), ...given.map(({ name }) => name)];
  const copy = withBody(node, names, body);
  return { ...copy, params: node.params.filter((_, i) => !same.has(i)) } as FunctionNode;
}

function parameterOf(node: FunctionNode, i: number): string {
  const param = node.params[i];
  return param?.type === 'Identifier' ? param.name : '';
}

/** The calls of a function that is only ever called; undefined if it is handed on, too. */
function callsOf({ declaration, uses }: Name): CallExpression[] | undefined {
  if (declaration === undefined || uses.length === 0) return undefined;
  const calls: CallExpression[] = [];
  for (const { node, ancestors } of uses) {
    const call = ancestors[ancestors.length - 1];
    if (call?.type !== 'CallExpression' || call.callee !== node) return undefined;
    calls.push(call);
  }
  return calls;
}

function sameArguments(
  { declaration, owner }: Name,
  calls: readonly CallExpression[],
  names: ReadonlyMap<string, Name>,
): Map<number, Expression> {
  const same = new Map<number, Expression>();
  declaration?.params.forEach((param, i) => {
    const name = param.type === 'Identifier' ? names.get(param.name) : undefined;
    if (name === undefined || writesOf(name).length > 0) return;
    const given = calls.map((call) => call.arguments[i]);
    const [first] = given;
    if (first === undefined || !given.every((one) => one && isSame(one, first))) return;
    const settled = first.type !== 'Identifier' || isSettled(names.get(first.name), owner);
    if (settled) same.set(i, first as Expression);
  });
  return same;
}

function isSame(a: AnyNode, b: AnyNode): boolean {
  if (a.type === 'Identifier' && b.type === 'Identifier') return a.name === b.name;
  const [one, other] = [knownValue(a), knownValue(b)];
  return one !== undefined && one === other;
}

/** true if the name belongs to that function and is set once. */
function isSettled(name: Name | undefined, owner: FunctionNode | undefined): boolean {
  if (name === undefined || name.kind === 'function' || owner === undefined) return false;
  const writes = writesOf(name);
  const once =
    name.kind === 'parameter'
      ? writes.length === 0
      : writes.length === 1 && writes[0]!.within === name.owner && !isInLoop(writes[0]!);
  return once && name.owner === owner;
}
