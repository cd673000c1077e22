import type {
  AnyNode,
  BinaryExpression,
  Expression,
  IfStatement,
  LogicalExpression,
  Program,
  Statement,
} from 'acorn';
import { generate } from 'astring';
import { isPure } from './is-pure.ts';
import { simplestRatio } from './simplest-ratio.ts';
import { block, literal, mapTree, statementsOf, withStatements } from './tree.ts';
import { plainAssignment } from './variables.ts';

/**
 * Computes what is known: arithmetic on literals, its result a whole number or the ratio of two,
 * comparisons, and branches that are always or never taken. No ratio becomes a decimal.
 *
 * @param settled nodes in which nothing is left to compute; see `mapTree`
 */
export function fold(program: Program, settled?: Set<AnyNode>): Program {
  return mapTree(program, foldNode, settled);
}

function foldNode(node: AnyNode): AnyNode {
  if (node.type === 'BinaryExpression') return foldBinary(node);
  if (node.type === 'UnaryExpression') {
    const value = knownValue(node.argument);
    return node.operator === '!' && value !== undefined ? literal(!value) : node;
  }
  if (node.type === 'LogicalExpression') {
    const left = knownValue(node.left);
    if (left === undefined) return isDecided(node) ? node.right : isLeft(node) ? node.left : node;
    if (node.operator === '&&') return left ? node.right : node.left;
    return node.operator === '||' && !left ? node.right : node.left;
  }
  if (node.type === 'ConditionalExpression') {
    const test = knownValue(node.test);
    if (test !== undefined) return test ? node.consequent : node.alternate;
    const [then, otherwise] = [node.consequent, node.alternate];
    return isPure(node.test) && generate(then) === generate(otherwise) ? then : node;
  }
  if (node.type === 'IfStatement') return foldIf(node);
  if (node.type === 'BlockStatement') {
    const body = node.body.flatMap(statementsOf);
    return withStatements(
      node,
      body.filter((one, i) => !isEmptyLoop(one, body[i - 1])),
    );
  }
  return node;
}

/** true for `x && false` and `x || true` of a truth value: nothing comes of x but its value. */
function isDecided({ left, operator, right }: LogicalExpression): boolean {
  return isPure(left) && isTruth(left) && knownValue(right) === (operator === '||');
}

/** true for `x && true` and `x || false` of a truth value. */
function isLeft({ left, operator, right }: LogicalExpression): boolean {
  return isTruth(left) && knownValue(right) === (operator === '&&');
}

function isTruth(node: AnyNode): boolean {
  if (node.type === 'LogicalExpression') return isTruth(node.left) && isTruth(node.right);
  if (node.type === 'UnaryExpression') return node.operator === '!';
  return node.type === 'BinaryExpression' && /^([<>]=?|[!=]==)$/.test(node.operator);
}

/** true for a loop that does not begin: `i = 0; for (; i < 0; ...)`. */
function isEmptyLoop(loop: Statement, before: Statement | undefined): boolean {
  if (loop.type !== 'ForStatement' || loop.init || loop.test?.type !== 'BinaryExpression') {
    return false;
  }
  const { left, operator, right } = loop.test;
  const set = before && plainAssignment(before);
  if (set === undefined || left.type !== 'Identifier' || left.name !== set.name) return false;
  const [from, to] = [knownValue(set.value), knownValue(right)];
  if (typeof from !== 'number' || typeof to !== 'number') return false;
  return compute(operator, from, to) === false;
}

function foldIf(node: IfStatement): AnyNode {
  const test = knownValue(node.test);
  if (test === undefined) return node;
  return block(statementsOf(test ? node.consequent : node.alternate));
}

/** The value of a literal, its sign included. */
export function knownValue(node: AnyNode): number | boolean | undefined {
  if (node.type === 'UnaryExpression' && node.operator === '-') {
    const value = knownValue(node.argument);
    return typeof value === 'number' && value !== 0 ? -value : undefined;
  }
  if (node.type !== 'Literal') return undefined;
  const { value } = node;
  return typeof value === 'number' || typeof value === 'boolean' ? value : undefined;
}

/** The value of an expression of literals alone. */
export function constantValue(node: AnyNode): number | undefined {
  if (node.type === 'BinaryExpression') {
    const a = constantValue(node.left);
    const b = a === undefined ? undefined : constantValue(node.right);
    const value = a === undefined || b === undefined ? undefined : compute(node.operator, a, b);
    return typeof value === 'number' && !Number.isNaN(value) ? value : undefined;
  }
  const value = knownValue(node);
  return typeof value === 'number' ? value : undefined;
}

function foldBinary(node: BinaryExpression): Expression {
  const [a, b] = [constantValue(node.left), constantValue(node.right)];
  if (a === undefined || b === undefined) return foldShare(foldNeutral(node, b));
  const value = compute(node.operator, a, b);
  if (typeof value === 'boolean') return literal(value);
  if (Object.is(value, -0)) return node;
  if (Number.isSafeInteger(value)) return literal(value);
  const ratio = simplestRatio(value);
  return ratio !== undefined && lengthOf(ratio) < lengthOf(node) ? ratio : node;
}

/** x * 1, x / 1 and x - 0 are x, whatever x is; x + 0 is not if x is minus zero. */
function foldNeutral(node: BinaryExpression, right: number | undefined): Expression {
  const neutral = node.operator === '*' || node.operator === '/' ? 1 : 0;
  const is = /^[-*/]$/.test(node.operator) && right === neutral;
  return is ? (node.left as Expression) : node;
}

/** x * (1 / 4) is x / 4, and x / (1 / 4) is x * 4: a power of two takes no bits from either. */
function foldShare(node: Expression): Expression {
  if (node.type !== 'BinaryExpression' || !/^[*/]$/.test(node.operator)) return node;
  const { right } = node;
  if (right.type !== 'BinaryExpression' || right.operator !== '/') return node;
  const [one, power] = [knownValue(right.left), knownValue(right.right)];
  if (one !== 1 || typeof power !== 'number' || !isPowerOfTwo(power)) return node;
  return { ...node, operator: node.operator === '*' ? '/' : '*', right: right.right };
}

/** A logarithm alone would be rounded to a whole number next to a great power, too. */
function isPowerOfTwo(value: number): boolean {
  return value === 2 ** Math.round(Math.log2(value));
}

function lengthOf(node: AnyNode): number {
  return generate(node).replace(/ /g, '').length;
}

function compute(operator: string, a: number, b: number): number | boolean {
  switch (operator) {
    case '===':
      return a === b;
    case '!==':
      return a !== b;
    case '<':
      return a < b;
    case '<=':
      return a <= b;
    case '>':
      return a > b;
    case '>=':
      return a >= b;
    case '+':
      return a + b;
    case '-':
      return a - b;
    case '*':
      return a * b;
    case '/':
      return a / b;
    case '&':
      return a & b;
    case '|':
      return a | b;
    case '<<':
      return a << b;
    default:
      return Number.NaN;
  }
}
