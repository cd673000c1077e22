import type { AnyNode, AssignmentExpression, Expression, Program, Statement } from 'acorn';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { isSame } from './shapes.ts';
import {
  childrenOf,
  expressionStatement,
  isFunction,
  mapTree,
  mentions,
  some,
  withStatements,
} from './tree.ts';

/**
 * Gives several places the same value in one step: `a = b = 0` for `b = 0` and, soon after,
 * `a = 0`, and `r.f = x = y` for `x = y` followed by `r.f = x`. Less text, and no slower.
 */
export function chainSteps(program: Program): Program {
  return mapTree(program, (node) =>
    node.type === 'BlockStatement' && node.body.some((one) => !isFunction(one))
      ? withStatements(node, chained(node.body))
      : node,
  );
}

function chained(body: readonly Statement[]): Statement[] {
  const out: Statement[] = [];
  for (const statement of body) {
    const step = stepOf(statement);
    const at = step === undefined ? -1 : partnerOf(step, out);
    if (step === undefined || at < 0) {
      out.push(statement);
      continue;
    }
    const before = stepOf(out[at]!)!;
    out.splice(at, 1);
    out.push(expressionStatement({ ...step, right: before }));
  }
  return out;
}

/** How many steps back the other one may be. */
const FAR = 8;

/** Index of the step that gives what this one gives, too, and may be done just before it. */
function partnerOf(step: AssignmentExpression, out: readonly Statement[]): number {
  // Another one reads its place before it comes to what it is given.
  if (step.operator !== '=') return -1;
  for (let i = out.length - 1; i >= 0 && i >= out.length - FAR; i--) {
    const before = stepOf(out[i]!);
    if (before === undefined) return -1;
    if (before.operator !== '=') continue;
    const isNext = i === out.length - 1;
    const isCopy = isNext && step.right.type === 'Identifier' && isSame(step.right, before.left);
    if (!isCopy && !isSameValue(step.right, givenBy(before))) continue;
    const written = targetsOf(before);
    const isMoved = (part: AnyNode) => written.some((target) => touches(part, target));
    if (childrenOf(step.left).some(isMoved)) continue;
    const between = out.slice(i + 1).map((one) => stepOf(one)!);
    if (between.every((one) => areApart(one, before))) return i;
  }
  return -1;
}

/** An assignment that is a statement, with nothing in it that has another effect. */
function stepOf(statement: Statement): AssignmentExpression | undefined {
  if (statement.type !== 'ExpressionStatement') return undefined;
  const { expression } = statement;
  return expression.type === 'AssignmentExpression' && isStep(expression) ? expression : undefined;
}

function isStep({ left, right }: AssignmentExpression): boolean {
  if (!isPure(left)) return false;
  return right.type === 'AssignmentExpression' ? isStep(right) : isPure(right);
}

/** What a chain gives. */
function givenBy({ right }: AssignmentExpression): Expression {
  return right.type === 'AssignmentExpression' && right.operator === '=' ? givenBy(right) : right;
}

/** true for the same number or name: what is between and before gives it no other value. */
function isSameValue(a: AnyNode, b: AnyNode): boolean {
  if (a.type === 'Identifier') return isSame(a, b);
  const value = knownValue(a);
  return value !== undefined && Object.is(value, knownValue(b));
}

/** true if it makes no difference which of the steps is done first. */
function areApart(a: AssignmentExpression, b: AssignmentExpression): boolean {
  return (
    targetsOf(a).every((target) => !touches(b, target)) &&
    targetsOf(b).every((target) => !touches(a, target))
  );
}

function targetsOf(step: AssignmentExpression): AnyNode[] {
  return step.right.type === 'AssignmentExpression'
    ? [step.left, ...targetsOf(step.right)]
    : [step.left];
}

/** true if the tree reads or writes what is written in the target. */
function touches(tree: AnyNode, target: AnyNode): boolean {
  // What is called may read anything; see outline.ts.
  if (some(tree, ({ type }) => type === 'CallExpression')) return true;
  if (target.type === 'Identifier') return mentions(tree, target.name);
  // Any element of any list, and any field: two names may stand for one of them.
  return some(tree, (node) => node.type === 'MemberExpression');
}
