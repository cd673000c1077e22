import type { AnyNode, Expression, FunctionDeclaration, Program, Statement } from 'acorn';
import {
  assign,
  type FunctionNode,
  identifier,
  isFunction,
  mapChildren,
  mapTree,
  statementsOf,
  withBody,
} from './tree.ts';

/**
 * Turns every `var` inside functions into assignments; the names go into the function's `names`.
 */
export function spreadVariables(program: Program): Program {
  const within = (node: AnyNode, names: string[]): AnyNode => {
    if (isFunction(node)) return spread(node);
    const copy = mapChildren(node, (child) => within(child, names));
    if (copy.type !== 'VariableDeclaration') return dissolve(copy);
    const assigned: Statement[] = [];
    for (const { id, init } of copy.declarations) {
      if (id.type !== 'Identifier') continue;
      if (!names.includes(id.name)) names.push(id.name);
      if (init) assigned.push(assign(id.name, init));
    }
    return { type: 'BlockStatement', body: assigned, start: 0, end: 0 };
  };
  const spread = (node: FunctionNode): AnyNode => {
    const names: string[] = [];
    const copy = mapChildren(node, (child) => within(child, names));
    return withBody(copy, names);
  };
  return mapChildren(program, (child) =>
    child.type === 'VariableDeclaration' ? child : within(child, []),
  );
}

/** Blocks in blocks spliced in, a loop's initial assignments put before it. */
function dissolve(node: AnyNode): AnyNode {
  if (node.type === 'BlockStatement') return { ...node, body: node.body.flatMap(statementsOf) };
  if (
    node.type === 'ForStatement' &&
    node.init &&
    (node.init as AnyNode).type === 'BlockStatement'
  ) {
    const before = statementsOf(node.init as unknown as Statement);
    return { type: 'BlockStatement', body: [...before, { ...node, init: null }], start: 0, end: 0 };
  }
  return node;
}

/** The reverse: declares each name of a function, where it is first assigned if that can be. */
export function gatherVariables(program: Program): Program {
  return mapTree(program, (node) => {
    if (!isFunction(node) || node.names === undefined) return node;
    const open = new Set(node.names);
    const statements: (Statement | FunctionDeclaration)[] = [];
    for (const statement of node.body.body) {
      const set = plainAssignment(statement);
      if (set === undefined || !open.has(set.name)) statements.push(statement);
      else {
        open.delete(set.name);
        statements.push(declaration([set]));
      }
    }
    const functions = statements.filter(({ type }) => type === 'FunctionDeclaration');
    const rest = statements.filter(({ type }) => type !== 'FunctionDeclaration');
    const bare = [...open].map((name) => ({ name, value: null }));
    const first = bare.length > 0 ? [declaration(bare)] : [];
    return withBody(node, [], [...functions, ...first, ...rest]);
  });
}

/** What a statement of the form `name = value;` assigns. */
export function plainAssignment(
  statement: AnyNode,
): { name: string; value: Expression } | undefined {
  if (statement.type !== 'ExpressionStatement') return undefined;
  const { expression } = statement;
  if (expression.type !== 'AssignmentExpression' || expression.operator !== '=') return undefined;
  if (expression.left.type !== 'Identifier') return undefined;
  return { name: expression.left.name, value: expression.right };
}

function declaration(set: readonly { name: string; value: Expression | null }[]): Statement {
  return {
    type: 'VariableDeclaration',
    kind: 'var',
    declarations: set.map(({ name, value }) => ({
      type: 'VariableDeclarator',
      id: identifier(name),
      init: value,
      start: 0,
      end: 0,
    })),
    start: 0,
    end: 0,
  };
}
