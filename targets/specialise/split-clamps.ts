import type { AnyNode, BinaryExpression, Expression, Program, Statement } from 'acorn';
import { conditionalStep } from './conditional-step.ts';
import { constantValue } from './fold.ts';
import { type Ranges, rangesIn } from './ranges.ts';
import { isSame } from './shapes.ts';
import {
  assign,
  choice,
  identifier,
  ifStatement,
  mapTree,
  mentions,
  statementsOf,
  withStatements,
} from './tree.ts';
import { plainAssignment } from './variables.ts';

/**
 * Bounds a number from above and then from below, each by a step of its own, where one step does
 * either: `x > 9 ? 9 : x < 1 ? 1 : x`. It is the same where the bounds are in order, and the steps
 * are alike wherever numbers are bounded: what a number is compared with is what it is bounded by,
 * `0 - c` for `-c` as well.
 */
export function splitClamps(program: Program): Program {
  const ranges = rangesIn(program);
  return mapTree(program, (node) =>
    node.type === 'BlockStatement'
      ? withStatements(
          node,
          node.body.flatMap((one) => split(one, ranges)),
        )
      : node,
  );
}

/** `x` bounded by `test`, which holds where the bound takes its place. */
interface Bound {
  x: Expression;
  by: Expression;
  above: boolean;
}

function split(statement: Statement, ranges: Ranges): Statement[] {
  const step = conditionalStep(statement);
  const one = step && boundBy(step.test, step.value, step.name);
  if (one !== undefined) return [stepTo(one, step!.name, one.x)];
  const [target, first, second] = boundsOf(statement);
  if (target === undefined || first === undefined || second === undefined) return [statement];
  if (!isSame(first.x, second.x) || first.above === second.above) return [statement];
  const [most, least] = first.above ? [first.by, second.by] : [second.by, first.by];
  const isBound = (node: AnyNode) => !mentions(node, target);
  if (!isBound(most) || !isBound(least) || !areInOrder(least, most, ranges)) return [statement];
  return [first, second].map((bound, i) =>
    stepTo(bound, target, i === 0 ? bound.x : identifier(target)),
  );
}

/** The step that gives the target a value bounded on one side. */
function stepTo({ by, above }: Bound, target: string, value: Expression): Statement {
  const test = compared(value, above ? '>' : '<', by);
  if (isSame(value, identifier(target))) return ifStatement(test, [assign(target, by)], []);
  return assign(target, choice(test, by, value));
}

/** The name that is given a bounded number, and the two bounds, if a statement does just that. */
function boundsOf(
  statement: Statement,
): [target?: string, first?: Bound | undefined, second?: Bound | undefined] {
  if (statement.type === 'IfStatement') {
    const [then, more] = statementsOf(statement.consequent);
    const [otherwise, another] = statementsOf(statement.alternate);
    if (!then || !otherwise || more || another) return [];
    const [set, last] = [plainAssignment(then), conditionalValue(otherwise)];
    if (set === undefined || last?.name !== set.name) return [];
    const first = boundBy(statement.test, set.value, set.name);
    return [set.name, first, boundIn(last.value, set.name)];
  }
  const set = plainAssignment(statement);
  if (set?.value.type !== 'ConditionalExpression') return [];
  const { test, consequent, alternate } = set.value;
  const first = boundBy(test, consequent, undefined);
  return [set.name, first, boundIn(alternate, undefined)];
}

/** What `if (test) x = y;` gives x, and what `x = test ? y : x` does. */
function conditionalValue(statement: Statement): { name: string; value: Expression } | undefined {
  const step = conditionalStep(statement);
  if (step === undefined) return plainAssignment(statement);
  return { name: step.name, value: choice(step.test, step.value, identifier(step.name)) };
}

/** The bound in `x < 1 ? 1 : x`. */
function boundIn(node: AnyNode, name: string | undefined): Bound | undefined {
  if (node.type !== 'ConditionalExpression') return undefined;
  const bound = boundBy(node.test, node.consequent, name);
  return bound && isSame(bound.x, node.alternate) ? bound : undefined;
}

function boundBy(test: AnyNode, by: Expression, name: string | undefined): Bound | undefined {
  if (test.type !== 'BinaryExpression' || !/^[<>]$/.test(test.operator)) return undefined;
  const { left, operator, right } = test;
  if (left.type !== 'Identifier' || (name !== undefined && left.name !== name)) return undefined;
  return isSameBound(right, by) ? { x: left, by, above: operator === '>' } : undefined;
}

/** true for the same bound; `-c` and `0 - c` are compared alike. */
function isSameBound(a: AnyNode, b: AnyNode): boolean {
  if (isSame(a, b)) return true;
  if (a.type !== 'UnaryExpression' || a.operator !== '-' || b.type !== 'BinaryExpression')
    return false;
  return b.operator === '-' && constantValue(b.left) === 0 && isSame(a.argument, b.right);
}

function areInOrder(least: Expression, most: Expression, ranges: Ranges): boolean {
  const [low, high] = [least, most].map((node) => ranges.of(node));
  const [a, b] = [constantValue(least), constantValue(most)];
  if (a !== undefined && b !== undefined) return a <= b;
  return !!low && !!high && !low.nan && !high.nan && low.most <= high.least;
}

function compared(left: Expression, operator: '<' | '>', right: Expression): BinaryExpression {
  return { type: 'BinaryExpression', left, operator, right, start: 0, end: 0 };
}
