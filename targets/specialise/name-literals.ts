import type { AnyNode, Expression, Program } from 'acorn';
import { generate } from 'astring';
import { constantValue, knownValue } from './fold.ts';
import {
  assign,
  type FunctionNode,
  identifier,
  isFunction,
  mapChildren,
  mapReadable,
  visitChildren,
  withBody,
} from './tree.ts';

/**
 * Gives numbers that a function has many times a name there: a variable of its own is as quick as a
 * literal, quicker than a ratio of two, and has a shorter name than most.
 */
export function nameLiterals(program: Program): Program {
  let count = 0;
  const visit = (node: AnyNode): AnyNode => {
    const copy = mapChildren(node, visit);
    if (!isFunction(copy) || copy.body.body.some(isFunction)) return copy;
    const counts = new Map<string, Literal>();
    countIn(copy.body, counts);
    const worth = [...counts].filter(([text, { times }]) => saves(text.length, times));
    if (worth.length === 0) return copy;
    for (const [, literal] of worth) literal.name = `literal$${count++}`;
    return withNames(copy, new Map(worth));
  };
  return visit(program) as Program;
}

interface Literal {
  value: Expression;
  times: number;
  name?: string;
}

/** What a name takes in the text, and its declaration beside the number. */
const NAME = 2;
const DECLARED = 4;

function saves(length: number, times: number): boolean {
  return times * (length - NAME) > length + DECLARED;
}

function countIn(node: AnyNode, counts: Map<string, Literal>): void {
  const text = textOf(node);
  if (text !== undefined) {
    const known = counts.get(text) ?? { value: node as Expression, times: 0 };
    known.times++;
    counts.set(text, known);
    return;
  }
  visitChildren(node, (child) => {
    countIn(child, counts);
  });
}

/** How a number, or a ratio of two, is written; undefined for all else. */
function textOf(node: AnyNode): string | undefined {
  if (typeof knownValue(node) !== 'number' && constantValue(node) === undefined) return undefined;
  return generate(node).replaceAll(' ', '');
}

function withNames(node: FunctionNode, named: ReadonlyMap<string, Literal>): FunctionNode {
  const visit = (inner: AnyNode): AnyNode => {
    const name = named.get(textOf(inner) ?? '')?.name;
    return name === undefined ? mapReadable(inner, visit) : identifier(name);
  };
  const body = node.body.body.map((one) => visit(one) as typeof one);
  const literals = [...named.values()];
  const given = literals.map(({ name, value }) => assign(name!, value));
  const names = literals.map(({ name }) => name!);
  return withBody(node, [...(node.names ?? []), ...names], [...given, ...body]);
}
