import type { AnyNode, Expression, Program } from 'acorn';
import { knownValue } from './fold.ts';
import { mapAsked } from './map-asked.ts';
import { type Ranges, rangesIn } from './ranges.ts';
import { literal, not } from './tree.ts';
import { assignedBy, collectNames, isOwnStatement, type Name } from './uses.ts';

/**
 * Where only truth is asked for, tests a number itself in place of comparing it with 0 or 1:
 * `x !== 0` becomes `x` where x is never NaN, `x > 0` where it is never less either, and `x === 1`
 * where it is 0 or 1. A name of which nothing but the truth is ever asked is given the truth
 * itself: `x = a > b`, not `x = a > b ? 1 : 0`.
 */
export function testTruths(program: Program): Program {
  const ranges = rangesIn(program);
  const change = (node: AnyNode, asked: boolean) => (asked && truthOf(node, ranges)) || node;
  const short = mapAsked(program, change);
  const truths = truthsIn(short);
  const asks = (node: AnyNode) =>
    node.type === 'AssignmentExpression' &&
    node.left.type === 'Identifier' &&
    truths.has(node.left.name);
  return mapAsked(short, change, asks);
}

/** What is as true as a comparison with 0 or 1, or a choice between them. */
function truthOf(node: AnyNode, ranges: Ranges): Expression | undefined {
  if (node.type === 'ConditionalExpression') {
    const [then, otherwise] = [knownValue(node.consequent), knownValue(node.alternate)];
    if (then === 1 && otherwise === 0) return node.test;
    return then === 0 && otherwise === 1 ? not(node.test) : undefined;
  }
  if (typeof knownValue(node) === 'boolean') return literal(knownValue(node) ? 1 : 0);
  if (node.type !== 'BinaryExpression') return undefined;
  const { left, operator, right } = node;
  const value = knownValue(right);
  const range = value === 0 || value === 1 ? ranges.of(left) : undefined;
  if (range === undefined || range.nan) return undefined;
  const isCount = range.least >= 0;
  const truth = left as Expression;
  if (value === 0 && isCount && operator === '>') return truth;
  if (operator !== '===' && operator !== '!==') return undefined;
  if (value === 1 && !(isCount && range.most <= 1 && range.whole)) return undefined;
  return (operator === '===') === (value === 1) ? truth : not(truth);
}

/** Variables of which nothing but the truth is ever asked. */
function truthsIn(program: Program): ReadonlySet<string> {
  const names = collectNames(program);
  const asked = new Set<AnyNode>();
  mapAsked(program, (node, isAsked) => {
    if (isAsked) asked.add(node);
    return node;
  });
  const truths = new Set<string>();
  for (const { name, kind, uses } of names.values()) {
    if (kind === 'variable' && uses.length > 0) truths.add(name);
  }
  const isTruth = ({ uses }: Name) =>
    uses.every((use) => {
      if (use.kind === 'write') return isOwnStatement(use) && assignedBy(use) !== undefined;
      const around = use.ancestors[use.ancestors.length - 1]!;
      if (asked.has(use.node)) return true;
      // A copy for another one.
      const isCopy = around.type === 'AssignmentExpression' && around.right === use.node;
      if (!isCopy || around.operator !== '=' || around.left.type !== 'Identifier') return false;
      return truths.has(around.left.name) && isStatement(use.ancestors[use.ancestors.length - 2]);
    });
  for (let changes = true; changes; ) {
    changes = false;
    for (const name of truths) {
      if (isTruth(names.get(name)!)) continue;
      truths.delete(name);
      changes = true;
    }
  }
  return truths;
}

function isStatement(node: AnyNode | undefined): boolean {
  return node?.type === 'ExpressionStatement';
}
