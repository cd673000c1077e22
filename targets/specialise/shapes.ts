import type { AnyNode, Expression, MemberExpression } from 'acorn';
import { childFields } from './child-fields.ts';
import { identifier } from './tree.ts';

/** What holds of the leaves of expressions that are compared. */
export interface Leaves {
  /** true for a name that means the same wherever the shape is computed. */
  isFree(name: string): boolean;
  /** true for what may be computed whether or not the expression around comes to it. */
  isSafe(node: AnyNode): boolean;
}

/** An expression with holes, and what stood in them; a hole is a name like `$0`. */
export interface Shape {
  node: AnyNode;
  holes: number;
}

/** Name of a hole. */
function holeName(index: number): string {
  return `$${index}`;
}

/** The most that two expressions have in common; undefined if that is nothing. */
export function sharedShape(a: AnyNode, b: AnyNode, leaves: Leaves): Shape | undefined {
  const holes: [AnyNode, AnyNode][] = [];
  let fails = false;
  const hole = (left: AnyNode, right: AnyNode): AnyNode => {
    const known = holes.findIndex(([x, y]) => isSame(x, left) && isSame(y, right));
    if (known >= 0) return identifier(holeName(known));
    fails ||= !leaves.isSafe(left) || !leaves.isSafe(right);
    holes.push([left, right]);
    return identifier(holeName(holes.length - 1));
  };
  const both = (left: AnyNode, right: AnyNode): AnyNode => {
    if (fails) return left;
    if (left.type !== right.type) return hole(left, right);
    if (left.type === 'Identifier') {
      return isSame(left, right) && leaves.isFree(left.name) ? left : hole(left, right);
    }
    if (left.type === 'Literal') return isSame(left, right) ? left : hole(left, right);
    const turned = turnedLike(right, left);
    if (!isAlike(left, turned)) return hole(left, right);
    const copy = { ...left } as unknown as Record<string, unknown>;
    for (const key of partsOf(left)) copy[key] = both(partAt(left, key), partAt(turned, key));
    return copy as unknown as AnyNode;
  };
  const node = both(a, b);
  return fails || isHole(node) ? undefined : { node, holes: holes.length };
}

/** What stands in the holes where an expression has the shape; undefined if it has not. */
export function matchShape(
  { node: shape, holes: count }: Shape,
  expression: AnyNode,
  leaves: Leaves,
): AnyNode[] | undefined {
  const holes: (AnyNode | undefined)[] = Array.from({ length: count }, () => undefined);
  const match = (wanted: AnyNode, found: AnyNode): boolean => {
    if (wanted.type === 'Identifier') {
      const index = holeIndex(wanted.name);
      if (index === undefined) return isSame(wanted, found);
      const before = holes[index];
      if (before !== undefined) return isSame(before, found);
      holes[index] = found;
      return leaves.isSafe(found);
    }
    if (wanted.type !== found.type) return false;
    if (wanted.type === 'Literal') return isSame(wanted, found);
    const turned = turnedLike(found, wanted);
    return (
      isAlike(wanted, turned) &&
      partsOf(wanted).every((key) => match(partAt(wanted, key), partAt(turned, key)))
    );
  };
  return match(shape, expression) ? (holes as AnyNode[]) : undefined;
}

function isHole(node: AnyNode): boolean {
  return node.type === 'Identifier' && holeIndex(node.name) !== undefined;
}

/** Which hole a name is; undefined if it is none. */
export function holeIndex(name: string): number | undefined {
  return /^\$\d+$/.test(name) ? Number(name.slice(1)) : undefined;
}

/** The parts of an expression that are expressions themselves. */
function partsOf(node: AnyNode): readonly string[] {
  return isField(node) ? ['object'] : childFields(node.type);
}

function isField(node: AnyNode): node is MemberExpression {
  return node.type === 'MemberExpression' && !node.computed;
}

function partAt(node: AnyNode, key: string): AnyNode {
  return (node as unknown as Record<string, AnyNode>)[key]!;
}

/** true if two nodes differ in their parts alone. */
function isAlike(a: AnyNode, b: AnyNode): boolean {
  if (a.type !== b.type || !KINDS.has(a.type)) return false;
  if (isField(a) || isField(b)) {
    return isField(a) && isField(b) && isSame(a.property as AnyNode, b.property as AnyNode);
  }
  return (a as { operator?: string }).operator === (b as { operator?: string }).operator;
}

const KINDS: ReadonlySet<string> = new Set([
  'BinaryExpression',
  'LogicalExpression',
  'ConditionalExpression',
  'MemberExpression',
  'UnaryExpression',
  'Identifier',
  'Literal',
]);

/** `b < a` for `a > b`, where the other one compares that way. */
function turnedLike(node: AnyNode, like: AnyNode): AnyNode {
  if (node.type !== 'BinaryExpression' || like.type !== 'BinaryExpression') return node;
  const { left, operator, right } = node;
  if (operator === like.operator || TURNED[operator] !== like.operator) return node;
  return { ...node, left: right, operator: like.operator, right: left as Expression };
}

const TURNED: Readonly<Record<string, string>> = { '<': '>', '>': '<', '<=': '>=', '>=': '<=' };

/** true for the same expression. */
export function isSame(a: AnyNode, b: AnyNode): boolean {
  if (a === b) return true;
  if (a.type !== b.type) return false;
  if (a.type === 'Identifier') return a.name === (b as typeof a).name;
  if (a.type === 'Literal') return Object.is(a.value, (b as typeof a).value);
  return isAlike(a, b) && partsOf(a).every((key) => isSame(partAt(a, key), partAt(b, key)));
}
