import type { AnyNode, Program } from 'acorn';
import { generate } from 'astring';
import { siteAt } from './inline-calls.ts';
import { textSize } from './text-size.ts';
import {
  block,
  childrenOf,
  type FunctionNode,
  identifier,
  isFunction,
  mapChildren,
  some,
} from './tree.ts';
import { collectNames, isInLoop, isLoop, type Name, nodesAroundNames } from './uses.ts';

/**
 * Gives each place that calls a function which makes others, as those of the stages do, a copy of
 * its own: with what is known there it shrinks, and it can be moved in.
 *
 * @param quick true = so does a function that takes much to call for what it does; false = one that
 *   takes less text without its calls
 */
export function cloneMakers(program: Program, quick = true): Program {
  const names = collectNames(program);
  const copies = new Map<AnyNode, FunctionNode[]>();
  const callees = new Map<AnyNode, string>();
  const taken: Name[] = [];
  for (const name of names.values()) {
    if (!isMaker(name) && !(quick ? isShort(name, names) : isTerse(name, names))) continue;
    // A copy of one that calls the other would call what is there no more.
    if (taken.some((other) => calls(other, name) || calls(name, other))) continue;
    taken.push(name);
    const clones = name.uses.map((use, i) => {
      const clone = copyOf(name.declaration!, `$${i + 1}`);
      callees.set(use.node, clone.id!.name);
      return clone;
    });
    copies.set(name.declaration!, clones);
  }
  if (copies.size === 0) return program;
  const touched = nodesAroundNames(taken);
  const rewrite = (node: AnyNode): AnyNode => {
    const callee = callees.get(node);
    if (callee !== undefined) return identifier(callee);
    const clones = copies.get(node);
    if (clones !== undefined) return { ...block([]), body: clones } as AnyNode;
    return touched.has(node) ? mapChildren(node, rewrite) : node;
  };
  return rewrite(program) as Program;
}

function calls({ declaration }: Name, { uses }: Name): boolean {
  return uses.some(({ ancestors }) => ancestors.includes(declaration!));
}

function isMaker({ declaration, uses }: Name): boolean {
  return (
    declaration !== undefined &&
    uses.length > 1 &&
    uses.length <= MOST_COPIES &&
    declaration.body.body.some(isFunction) &&
    uses.every((use) => {
      const call = use.ancestors[use.ancestors.length - 1];
      return call?.type === 'CallExpression' && call.callee === use.node && !isInLoop(use);
    })
  );
}

const MOST_COPIES = 4;

/** true if it takes much to call for what it is, and can be moved to wherever it is called. */
function isShort(name: Name, names: ReadonlyMap<string, Name>): boolean {
  return isCalledOften(name) && isWorthNoCall(name.declaration) && fits(name, names);
}

function isCalledOften(name: Name): name is Name & { declaration: FunctionNode } {
  const { declaration, uses } = name;
  return declaration !== undefined && uses.length > 1 && uses.length <= MOST_COPIES;
}

function fits(name: Name, names: ReadonlyMap<string, Name>): boolean {
  return name.uses.every((use) => siteAt(use, name, names) !== undefined);
}

/** true if it takes less text where it is called than it does once with its calls. */
function isTerse(name: Name, names: ReadonlyMap<string, Name>): boolean {
  if (!isCalledOften(name) || name.declaration.body.body.some(isFunction)) return false;
  const { params, body } = name.declaration;
  const isLocal = (one: string) => names.get(one)?.owner === name.declaration;
  const does = body.body.reduce((sum, one) => sum + textSize(one, isLocal), 0);
  let saved = DECLARED + 2 * params.length + does;
  for (const { ancestors } of name.uses) {
    const call = ancestors[ancestors.length - 1];
    if (call?.type !== 'CallExpression') return false;
    saved += CALL + call.arguments.length - does;
    // What is more than a name or a number is given one first.
    for (const one of call.arguments) if (!isPlain(one)) saved -= SET;
  }
  return saved > 0 && fits(name, names);
}

function isPlain({ type }: AnyNode): boolean {
  return type === 'Identifier' || type === 'Literal';
}

/** `function ff(){}`, `ff();`, and `a=;`. */
const DECLARED = 15;
const CALL = 5;
const SET = 3;

function isWorthNoCall({ params, body }: FunctionNode): boolean {
  if (some(body, ({ type }) => type === 'CallExpression')) return false;
  const most = params.length >= VERY_MANY ? LONG : some(body, isLoop) ? 0 : SHORT;
  return params.length >= MANY && generate(body).replace(/\s|\$\w+/g, '').length <= most;
}

/** Parameters, and characters with names as in the source, of a function worth its call no more. */
const MANY = 3;
const SHORT = 80;
const VERY_MANY = 7;
const LONG = 500;

/** The same function with another name for everything that is declared in it. */
function copyOf(original: FunctionNode, mark: string): FunctionNode {
  const own = new Set<string>();
  const declare = (node: AnyNode): void => {
    if (isFunction(node)) {
      if (node.id) own.add(node.id.name);
      for (const param of node.params) if (param.type === 'Identifier') own.add(param.name);
      for (const name of node.names ?? []) own.add(name);
    }
    childrenOf(node).forEach(declare);
  };
  declare(original);
  const rename = (node: AnyNode): AnyNode => {
    if (node.type === 'Identifier') {
      return own.has(node.name) ? { ...node, name: node.name + mark } : node;
    }
    if (node.type === 'MemberExpression' && !node.computed) {
      return { ...node, object: rename(node.object) } as AnyNode;
    }
    if (node.type === 'Property') return { ...node, value: rename(node.value) } as AnyNode;
    const copy = mapChildren(node, rename);
    if (!isFunction(copy) || copy.names === undefined) return copy;
    const names = copy.names.map((name) => (own.has(name) ? name + mark : name));
    return { ...copy, names } as FunctionNode;
  };
  return rename(original) as FunctionNode;
}
