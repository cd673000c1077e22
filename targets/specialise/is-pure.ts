import type { AnyNode, Expression } from 'acorn';

/** true if nothing but its value comes of the expression. */
export function isPure(node: Expression | AnyNode): boolean {
  switch (node.type) {
    case 'Literal':
    case 'Identifier':
      return true;
    case 'MemberExpression':
      return isPure(node.object) && (!node.computed || isPure(node.property));
    case 'BinaryExpression':
    case 'LogicalExpression':
      return isPure(node.left) && isPure(node.right);
    case 'UnaryExpression':
      return node.operator !== 'delete' && isPure(node.argument);
    case 'ConditionalExpression':
      return isPure(node.test) && isPure(node.consequent) && isPure(node.alternate);
    case 'ArrayExpression':
      return node.elements.every((one) => one !== null && isPure(one));
    case 'ObjectExpression':
      return node.properties.every((one) => one.type === 'Property' && isPure(one.value));
    case 'CallExpression': {
      const { callee } = node;
      const isOutlined = callee.type === 'Identifier' && callee.name.startsWith(OUTLINED);
      return isOutlined && node.arguments.every(isPure);
    }
    default:
      return false;
  }
}

/** What the names of functions begin with that do nothing but work out a value; see outline.ts. */
export const OUTLINED = 'outlined$';
