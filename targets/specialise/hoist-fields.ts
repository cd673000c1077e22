import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { assign, block, identifier, isFunction, mapChildren, some, withBody } from './tree.ts';

/**
 * Computes the fields of a record that is returned or assigned before the record, one after the
 * other, where a call is among them: so each call stands in a statement of its own.
 */
export function hoistFields(program: Program): Program {
  let count = 0;
  const visit = (node: AnyNode, names: string[]): AnyNode => {
    if (isFunction(node)) {
      const own = [...(node.names ?? [])];
      return withBody(
        mapChildren(node, (child) => visit(child, own)),
        own,
      );
    }
    const copy = mapChildren(node, (child) => visit(child, names));
    const record = recordOf(copy);
    if (record === undefined || !some(record, ({ type }) => type === 'CallExpression', false)) {
      return copy;
    }
    const before: Statement[] = [];
    const properties = record.properties.map((property) => {
      if (property.type !== 'Property' || property.key.type !== 'Identifier') return property;
      const name = `${property.key.name}$field$${++count}`;
      names.push(name);
      before.push(assign(name, property.value));
      return { ...property, value: identifier(name) };
    });
    const bare = replaceRecord(copy as Statement, { ...record, properties });
    return block([...before, bare]);
  };
  return visit(program, []) as Program;
}

function recordOf(node: AnyNode) {
  const value =
    node.type === 'ReturnStatement'
      ? node.argument
      : node.type === 'ExpressionStatement' &&
          node.expression.type === 'AssignmentExpression' &&
          node.expression.left.type === 'Identifier'
        ? node.expression.right
        : undefined;
  return value?.type === 'ObjectExpression' ? value : undefined;
}

function replaceRecord(statement: Statement, record: Expression): Statement {
  if (statement.type === 'ReturnStatement') return { ...statement, argument: record };
  if (statement.type !== 'ExpressionStatement') return statement;
  const { expression } = statement;
  if (expression.type !== 'AssignmentExpression') return statement;
  return { ...statement, expression: { ...expression, right: record } };
}
