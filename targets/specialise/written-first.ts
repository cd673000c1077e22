import type { AnyNode, Expression } from 'acorn';
import { visitChildren } from './tree.ts';

/** true if in one run through the code the name is never read before it is written. */
export function isWrittenFirst(code: AnyNode, name: string): boolean {
  let early = false;
  /** Goes through a node; whether the name is written for certain by its end. */
  const pass = (node: AnyNode, before: boolean): boolean => {
    // What comes after it is written is no matter.
    if (early || before) return before;
    switch (node.type) {
      case 'Identifier':
        early = node.name === name;
        return before;
      case 'MemberExpression': {
        const after = pass(node.object, before);
        return node.computed ? pass(node.property, after) : after;
      }
      case 'Property':
        return pass(node.value, before);
      case 'AssignmentExpression': {
        if (node.left.type !== 'Identifier') return pass(node.right, pass(node.left, before));
        if (node.operator !== '=') pass(node.left, before);
        return pass(node.right, before) || node.left.name === name;
      }
      case 'IfStatement':
      case 'ConditionalExpression': {
        const after = pass(node.test, before);
        const then = pass(node.consequent, after);
        const otherwise = node.alternate ? pass(node.alternate, after) : after;
        return then && otherwise;
      }
      case 'LogicalExpression': {
        const after = pass(node.left, before);
        pass(node.right, after);
        return after;
      }
      case 'ForStatement': {
        const start = node.init ? pass(node.init, before) : before;
        const after = node.test ? pass(node.test, start) : start;
        // A `continue` in the body may come to the update before the rest of it.
        pass(node.body, after);
        if (node.update) pass(node.update, after);
        return after;
      }
      case 'WhileStatement':
      case 'DoWhileStatement':
      case 'TryStatement':
      case 'SwitchStatement':
        visitChildren(node, (child) => {
          pass(child, before);
        });
        return before;
      case 'ReturnStatement':
        if (node.argument) pass(node.argument as Expression, before);
        return true;
      case 'ContinueStatement':
      case 'BreakStatement':
        return true;
      default: {
        let after: boolean = before;
        visitChildren(node, (child) => {
          after = pass(child, after);
        });
        return after;
      }
    }
  };
  pass(code, false);
  return !early;
}
