import type { AnyNode } from 'acorn';
import { mapChildren } from './tree.ts';

/**
 * A tree, each node replaced, from the leaves up, by what `change` makes of it.
 *
 * @param change is told whether nothing but the truth of the node's value counts
 * @param asks of an assignment: whether nothing but the truth of what it gives counts
 */
export function mapAsked<T extends AnyNode>(
  tree: T,
  change: (node: AnyNode, asked: boolean) => AnyNode,
  asks: (assignment: AnyNode) => boolean = () => false,
): T {
  const visit = (node: AnyNode, asked: boolean): AnyNode =>
    change(
      mapChildren(node, (child) => visit(child, isAsked(node, child, asked, asks))),
      asked,
    );
  return visit(tree, false) as T;
}

function isAsked(
  node: AnyNode,
  child: AnyNode,
  asked: boolean,
  asks: (assignment: AnyNode) => boolean,
): boolean {
  switch (node.type) {
    case 'IfStatement':
    case 'ForStatement':
      return child === node.test;
    case 'ConditionalExpression':
      return child === node.test || asked;
    case 'LogicalExpression':
      // What the left side is decides, and it may be the value.
      return asked;
    case 'UnaryExpression':
      return node.operator === '!';
    case 'AssignmentExpression':
      return child === node.right && node.operator === '=' && asks(node);
    default:
      return false;
  }
}
