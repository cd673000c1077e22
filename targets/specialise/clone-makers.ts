import type { AnyNode, Program } from 'acorn';
import { generate } from 'astring';
import { siteAt } from './inline-calls.ts';
import {
  block,
  childrenOf,
  type FunctionNode,
  identifier,
  isFunction,
  mapChildren,
  some,
} from './tree.ts';
import { collectNames, isInLoop, isLoop, type Name } from './uses.ts';

/**
 * Gives each place that calls a function which makes others, as those of the stages do, a copy of
 * its own: with what is known there it shrinks, and it can be moved in.
 *
 * @param quick true = so does a function that takes much to call for what it does
 */
export function cloneMakers(program: Program, quick = true): Program {
  const names = collectNames(program);
  const copies = new Map<AnyNode, FunctionNode[]>();
  const callees = new Map<AnyNode, string>();
  const taken: Name[] = [];
  for (const name of names.values()) {
    if (!isMaker(name) && !(quick && isShort(name, names))) continue;
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
  const rewrite = (node: AnyNode): AnyNode => {
    const callee = callees.get(node);
    if (callee !== undefined) return identifier(callee);
    const clones = copies.get(node);
    return clones === undefined
      ? mapChildren(node, rewrite)
      : ({ ...block([]), body: clones } as AnyNode);
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
  const { declaration, uses } = name;
  return (
    declaration !== undefined &&
    uses.length > 1 &&
    uses.length <= MOST_COPIES &&
    isWorthNoCall(declaration) &&
    uses.every((use) => siteAt(use, name, names) !== undefined)
  );
}

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
