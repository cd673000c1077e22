import type { AnyNode, Expression, Program } from 'acorn';
import { generate } from 'astring';
import { constantValue, knownValue } from './fold.ts';
import {
  assign,
  block,
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
 *
 * @param everywhere true = also what functions with others inside do themselves, at creation
 */
export function nameLiterals(program: Program, everywhere = false): Program {
  let count = 0;
  const visit = (node: AnyNode): AnyNode => {
    const copy = mapChildren(node, visit);
    if (!isFunction(copy) || (!everywhere && copy.body.body.some(isFunction))) return copy;
    const counts = new Map<string, Literal>();
    for (const one of copy.body.body) if (!isFunction(one)) countIn(block([one]), counts);
    const worth = [...counts].filter(([text, literal]) => saves(text.length, literal));
    if (worth.length === 0) return copy;
    for (const [, literal] of worth) literal.name = `literal$${count++}`;
    return withNames(copy, new Map(worth));
  };
  return visit(program) as Program;
}

interface Literal {
  value: Expression;
  times: number;
  /** Characters of the brackets around it. */
  brackets: number;
  name?: string;
}

/** What a name takes in the text, and its declaration beside the number. */
const NAME = 2;
const DECLARED = 4;

function saves(length: number, { times, brackets }: Literal): boolean {
  return times * (length - NAME) + brackets > length + DECLARED;
}

function countIn(node: AnyNode, counts: Map<string, Literal>): void {
  visitChildren(node, (child) => {
    const text = textOf(child);
    if (text === undefined) {
      countIn(child, counts);
      return;
    }
    const known = counts.get(text) ?? { value: child as Expression, times: 0, brackets: 0 };
    known.times++;
    if (isFactor(node, child)) known.brackets += 2;
    counts.set(text, known);
  });
}

/** true for a ratio on the right of `*` or `/`, where it stands in brackets. */
function isFactor(node: AnyNode, child: AnyNode): boolean {
  const isRatio = node.type === 'BinaryExpression' && child.type === 'BinaryExpression';
  return isRatio && /^[*/]$/.test(node.operator) && node.right === child;
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
  const body = node.body.body.map((one) => (isFunction(one) ? one : (visit(one) as typeof one)));
  const literals = [...named.values()];
  const given = literals.map(({ name, value }) => assign(name!, value));
  const names = literals.map(({ name }) => name!);
  return withBody(node, [...(node.names ?? []), ...names], [...given, ...body]);
}
