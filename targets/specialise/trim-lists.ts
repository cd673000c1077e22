import type { AnyNode, ArrayExpression, CallExpression, Expression, Program } from 'acorn';
import { argumentsFor } from './arguments-for.ts';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { mapTree } from './tree.ts';
import {
  assignedBy,
  collectNames,
  isLoop,
  isOwnStatement,
  type Name,
  type Use,
  writesOf,
} from './uses.ts';

/** Drops the last elements of a list that are never reached: the core has room for more motors. */
export function trimLists(program: Program): Program {
  const names = collectNames(program);
  const lengths = new Map<AnyNode, number>();
  for (const name of names.values()) {
    const list = listOf(name);
    if (list === undefined) continue;
    const others = name.uses.filter(({ kind }) => kind === 'read');
    const last = Math.max(...others.map((use) => placeOf(use, names)));
    if (last >= 0 && last + 1 < list.elements.length) lengths.set(list, last + 1);
  }
  if (lengths.size === 0) return program;
  return mapTree(program, (node) => {
    const length = lengths.get(node);
    return length === undefined || node.type !== 'ArrayExpression'
      ? node
      : { ...node, elements: node.elements.slice(0, length) };
  });
}

/** The list that a name stands for from the start. */
function listOf(name: Name): ArrayExpression | undefined {
  const [write, another] = writesOf(name);
  if (name.kind !== 'variable' || write === undefined || another !== undefined) return undefined;
  const list = isOwnStatement(write) ? assignedBy(write) : undefined;
  return list?.type === 'ArrayExpression' && isPure(list) ? list : undefined;
}

/** The greatest place that is reached by a use of a list; Infinity if that is not known. */
function placeOf({ node, ancestors }: Use, names: ReadonlyMap<string, Name>, depth = 0): number {
  const around = ancestors[ancestors.length - 1];
  if (around?.type === 'CallExpression') {
    const param = around.callee === node ? undefined : paramOf(around, node, names);
    if (param === undefined || depth > DEEP) return Infinity;
    return Math.max(...param.uses.map((use) => placeOf(use, names, depth + 1)));
  }
  const isPlace =
    around?.type === 'MemberExpression' && around.object === node && around.computed === true;
  return isPlace ? greatest(around.property, [...ancestors, around], names, 0) : Infinity;
}

/** The parameter that takes what a call gives. */
function paramOf(
  { callee, arguments: given }: CallExpression,
  node: AnyNode,
  names: ReadonlyMap<string, Name>,
): Name | undefined {
  const called = callee.type === 'Identifier' ? names.get(callee.name)?.declaration : undefined;
  const param = called?.params[given.indexOf(node as Expression)];
  return param?.type === 'Identifier' ? names.get(param.name) : undefined;
}

/** As far as calls are followed. */
const DEEP = 8;

/** The greatest whole number that an expression can be; Infinity if that is not known. */
function greatest(
  node: AnyNode,
  ancestors: readonly AnyNode[],
  names: ReadonlyMap<string, Name>,
  depth: number,
): number {
  const value = knownValue(node);
  if (typeof value === 'number') return Number.isInteger(value) && value >= 0 ? value : Infinity;
  if (node.type === 'BinaryExpression' && node.operator === '^' && knownValue(node.right) === 1) {
    const left = greatest(node.left, ancestors, names, depth);
    return left === Infinity ? left : left | 1;
  }
  const name = node.type === 'Identifier' ? names.get(node.name) : undefined;
  if (name === undefined || depth > DEEP) return Infinity;
  return name.kind === 'parameter'
    ? greatestGiven(name, names, depth + 1)
    : greatestInLoop(name, ancestors);
}

/** Of a parameter: the greatest of what all calls give. */
function greatestGiven(name: Name, names: ReadonlyMap<string, Name>, depth: number): number {
  if (writesOf(name).length > 0) return Infinity;
  const given = argumentsFor(name, names);
  if (given === undefined) return Infinity;
  return given.reduce(
    (most, { argument, ancestors }) => Math.max(most, greatest(argument, ancestors, names, depth)),
    0,
  );
}

/** Of the variable of a loop `i < 2`, in its body. */
function greatestInLoop(name: Name, ancestors: readonly AnyNode[]): number {
  for (const loop of ancestors.filter(isLoop)) {
    if (loop.type !== 'ForStatement' || loop.test?.type !== 'BinaryExpression') continue;
    const { left, operator, right } = loop.test;
    if (left.type !== 'Identifier' || left.name !== name.name || operator !== '<') continue;
    const end = knownValue(right);
    const changes = writesOf(name).filter((use) => use.ancestors.includes(loop));
    const isStep = changes.every((use) => loop.update && use.ancestors.includes(loop.update));
    if (typeof end === 'number' && isStep && ancestors.includes(loop.body)) return end - 1;
  }
  return Infinity;
}
