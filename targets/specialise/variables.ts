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

/**
 * The reverse: declares each name of a function, where it is first assigned if that can be and
 * others are with it; a `var` for one alone is longer than its name beside those that come first.
 */
export function gatherVariables(program: Program): Program {
  return mapTree(program, (node) => {
    if (!isFunction(node) || node.names === undefined) return node;
    const open = new Set(node.names);
    const statements: (Statement | FunctionDeclaration)[] = [];
    const own = node.body.body.filter((one) => !isFunction(one));
    const firsts = firstAssigned(own, open);
    const alone = own.filter(
      (one, i) => i > 0 && firsts.has(one) && !firsts.has(own[i - 1]) && !firsts.has(own[i + 1]),
    );
    const late = new Set(alone.length < open.size ? alone : []);
    own.forEach((statement) => {
      const set = late.has(statement) ? undefined : firsts.get(statement);
      if (set !== undefined) open.delete(set.name);
      statements.push(set === undefined ? statement : declaration([set]));
    });
    const functions = node.body.body.filter(isFunction);
    const bare = [...open].map((name) => ({ name, value: null }));
    const first = bare.length > 0 ? [declaration(bare)] : [];
    return withBody(node, [], [...functions, ...first, ...statements]);
  });
}

/** The statements that are the first to give a name a value, and do nothing else. */
function firstAssigned(
  body: readonly AnyNode[],
  names: ReadonlySet<string>,
): Map<AnyNode | undefined, { name: string; value: Expression }> {
  const seen = new Set<string>();
  const firsts = new Map<AnyNode | undefined, { name: string; value: Expression }>();
  for (const statement of body) {
    const set = plainAssignment(statement);
    if (set === undefined || !names.has(set.name) || seen.has(set.name)) continue;
    seen.add(set.name);
    firsts.set(statement, set);
  }
  return firsts;
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
