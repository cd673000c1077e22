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
  mapTree,
  visitChildren,
  withBody,
} from './tree.ts';

/**
 * Gives numbers that a function has many times a name there: a variable of its own is as quick as a
 * literal, quicker than a ratio of two, and has a shorter name than most. A negative one that does
 * not come often is written as that of the positive one, if there is one: `-x`, which has its bits.
 *
 * @param everywhere true = also what functions with others inside do, and one name for all that
 *   use a number, given by the function around: less text, but slower to read
 */
export function nameLiterals(program: Program, everywhere = false): Program {
  let count = 0;
  const visit = (node: AnyNode): AnyNode => {
    if (!isFunction(node)) return mapChildren(node, visit);
    const inner = node.body.body.some(isFunction);
    // From the outside in: what is named there is named for all inside.
    const worth = everywhere || !inner ? worthIn(node) : [];
    for (const [, literal] of worth) literal.name = `literal$${count++}`;
    const copy = worth.length === 0 ? node : withNames(node, new Map(worth));
    return inner ? mapChildren(copy, visit) : copy;
  };
  return visit(program) as Program;
}

/** What is to get a name in a function: it is used there itself, or by several of those inside. */
function worthIn(node: FunctionNode): [text: string, literal: Literal][] {
  const counts = new Map<string, Literal>();
  for (const one of node.body.body) countIn(block([one]), isFunction(one) ? one : node, counts);
  joinNegatives(counts);
  return [...counts].filter(([text, literal]) => {
    const isHere = literal.users.size > 1 || literal.users.has(node);
    return isHere && saves(text.length, literal);
  });
}

/** Counts negative numbers not worth a name with the positive ones. */
function joinNegatives(counts: Map<string, Literal>): void {
  for (const [text, negative] of [...counts]) {
    const positive = counts.get(oppositeOf(text) ?? '');
    if (positive === undefined || saves(text.length, negative)) continue;
    counts.delete(text);
    positive.isOpposite = true;
    positive.times += negative.times;
    for (const user of negative.users) positive.users.add(user);
  }
}

interface Literal {
  value: Expression;
  times: number;
  users: Set<AnyNode>;
  /** Characters of the brackets around it. */
  brackets: number;
  name?: string;
  /** true = the negative number is counted with it. */
  isOpposite?: boolean;
}

/** What a name takes in the text, and its declaration beside the number. */
const NAME = 2;
const DECLARED = 4;

function saves(length: number, { times, brackets }: Literal): boolean {
  return times * (length - NAME) + brackets > length + DECLARED;
}

function countIn(node: AnyNode, user: AnyNode, counts: Map<string, Literal>): void {
  visitChildren(node, (child) => {
    const text = textOf(child);
    if (text === undefined) {
      countIn(child, user, counts);
      return;
    }
    const first = { value: child as Expression, times: 0, brackets: 0, users: new Set<AnyNode>() };
    const known = counts.get(text) ?? first;
    known.times++;
    known.users.add(user);
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
  return generate(mapTree(node, plainly)).replaceAll(' ', '');
}

/** How the opposite of a negative number is written; a sum has another sign in each part. */
function oppositeOf(text: string): string | undefined {
  return /^-[^-+]+$/.test(text) ? text.slice(1) : undefined;
}

/** A number in all its digits, as it is in the script in the end. */
function plainly(node: AnyNode): AnyNode {
  const isNumber = node.type === 'Literal' && Number.isSafeInteger(node.value);
  return isNumber ? { ...node, raw: String(node.value) } : node;
}

function withNames(node: FunctionNode, named: ReadonlyMap<string, Literal>): FunctionNode {
  const visit = (inner: AnyNode): AnyNode => {
    const text = textOf(inner) ?? '';
    const name = named.get(text)?.name;
    if (name !== undefined) return identifier(name);
    const positive = named.get(oppositeOf(text) ?? '');
    return positive?.isOpposite ? minus(positive.name!) : mapReadable(inner, visit);
  };
  const body = node.body.body.map((one) => visit(one) as typeof one);
  const literals = [...named.values()];
  const given = literals.map(({ name, value }) => assign(name!, value));
  const names = literals.map(({ name }) => name!);
  return withBody(node, [...(node.names ?? []), ...names], [...given, ...body]);
}

function minus(name: string): Expression {
  const argument = identifier(name);
  return { type: 'UnaryExpression', operator: '-', prefix: true, argument, start: 0, end: 0 };
}
