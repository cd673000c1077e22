import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { effectsOf } from './effects.ts';
import { fold, knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { isFunction, literal, mapReadable, mapTouched, statementsOf, withBody } from './tree.ts';
import { collectNames, type Name, nodesAround } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Takes out what a function that makes others does in vain, such as to clear what it has just made:
 * names are given the numbers that they have, and branches are taken by them.
 */
export function settleCreation(program: Program): Program {
  const names = collectNames(program);
  const declared = [...names.values()].filter(({ declaration }) => declaration !== undefined);
  return mapTouched(program, nodesAround(declared), (node) => {
    if (!isFunction(node) || !node.names || !node.body.body.some(isFunction)) return node;
    const known: Known = new Map();
    const own = new Set(node.names);
    const body = node.body.body.flatMap((one) =>
      isFunction(one) ? [one] : settled(one as Statement, known, own, names),
    );
    return withBody(node, node.names, body);
  });
}

/** What the function's own names are given by now, as far as that is a number or a truth value. */
type Known = Map<string, number | boolean>;

/** What is left of a statement. */
function settled(
  statement: Statement,
  known: Known,
  own: ReadonlySet<string>,
  names: ReadonlyMap<string, Name>,
): Statement[] {
  if (statement.type === 'IfStatement' && isPure(statement.test)) {
    const test = decidedBy(statement.test, known);
    if (test === undefined) return forgotten(statement, known, names);
    const branch = statementsOf(test ? statement.consequent : statement.alternate);
    return branch.flatMap((one) => settled(one, known, own, names));
  }
  const given = stepsOf(statement, names);
  if (given === undefined) return forgotten(statement, known, names);
  if (given.every(({ name, value }) => Object.is(known.get(name), value))) return [];
  for (const { name, value } of given) if (own.has(name)) known.set(name, value);
  return [statement];
}

/** The numbers that a statement, or the function it calls, gives names, if it does nothing else. */
function stepsOf(
  statement: AnyNode,
  names: ReadonlyMap<string, Name>,
): { name: string; value: number | boolean }[] | undefined {
  const set = plainAssignment(statement);
  if (set !== undefined) {
    const value = knownValue(set.value);
    return value === undefined ? undefined : [{ name: set.name, value }];
  }
  const call = statement.type === 'ExpressionStatement' ? statement.expression : undefined;
  if (call?.type !== 'CallExpression' || call.callee.type !== 'Identifier') return undefined;
  const called = names.get(call.callee.name)?.declaration;
  if (called === undefined || call.arguments.length > 0) return undefined;
  const steps = called.body.body.map((one) => plainAssignment(one) && stepsOf(one, names)?.[0]);
  const all = steps.flatMap((one) => one ?? []);
  const isOwn = all.some(({ name }) => called.names?.includes(name));
  return all.length < steps.length || isOwn ? undefined : all;
}

/** The statement as it is, of which nothing more is known than what it may change. */
function forgotten(
  statement: Statement,
  known: Known,
  names: ReadonlyMap<string, Name>,
): Statement[] {
  if (known.size === 0) return [statement];
  const effects = effectsOf(statement, names);
  for (const name of [...known.keys()]) {
    if (effects === undefined || effects.names.has(name)) known.delete(name);
  }
  return [statement];
}

function decidedBy(test: Expression, known: Known): number | boolean | undefined {
  const put = (node: AnyNode): AnyNode => {
    const value = node.type === 'Identifier' ? known.get(node.name) : undefined;
    return value === undefined ? mapReadable(node, put) : literal(value);
  };
  return knownValue(fold(put(test) as unknown as Program));
}
