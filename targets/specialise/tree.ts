import type { AnyNode, Expression, Identifier, Literal, Statement } from 'acorn';

/** A node in which each child is what `map` makes of it; itself where that changes nothing. */
export function mapChildren<T extends AnyNode>(node: T, map: (child: AnyNode) => AnyNode): T {
  const fields = node as unknown as Fields;
  let copy: Fields | undefined;
  for (const key in fields) {
    const value = fields[key];
    if (typeof value !== 'object' || value === null) continue;
    const mapped = Array.isArray(value) ? mapList(value, map) : isTree(value) ? map(value) : value;
    if (mapped === value) continue;
    copy ??= { ...fields };
    copy[key] = mapped;
  }
  return (copy ?? node) as T;
}

/** As `mapChildren`, of a list. */
function mapList(list: unknown[], map: (child: AnyNode) => AnyNode): unknown[] {
  let copy: unknown[] | undefined;
  for (let i = 0; i < list.length; i++) {
    const one = list[i];
    const mapped = isTree(one) ? map(one) : one;
    if (mapped === one) continue;
    copy ??= [...list];
    copy[i] = mapped;
  }
  return copy ?? list;
}

type Fields = Record<string, unknown>;

/** A tree, each node replaced, from the leaves up, by what `change` makes of it. */
export function mapTree<T extends AnyNode>(tree: T, change: (node: AnyNode) => AnyNode): T {
  const visit = (node: AnyNode): AnyNode => change(mapChildren(node, visit));
  return visit(tree) as T;
}

/** The nodes right below a node, in the order of the source. */
export function childrenOf(node: AnyNode): AnyNode[] {
  const children: AnyNode[] = [];
  visitChildren(node, (child) => {
    children.push(child);
  });
  return children;
}

/**
 * Hands out the nodes right below a node, in the order of the source, until `visit` returns true.
 *
 * @returns whether it did
 */
export function visitChildren(node: AnyNode, visit: (child: AnyNode) => unknown): boolean {
  const fields = node as unknown as Fields;
  for (const key in fields) {
    const value = fields[key];
    if (typeof value !== 'object' || value === null) continue;
    if (!Array.isArray(value)) {
      if (isTree(value) && visit(value) === true) return true;
      continue;
    }
    for (const one of value) if (isTree(one) && visit(one) === true) return true;
  }
  return false;
}

/** true if `test` holds for a node of the tree; functions inside are entered if `inner`. */
export function some(tree: AnyNode, test: (node: AnyNode) => boolean, inner = true): boolean {
  if (test(tree)) return true;
  return visitChildren(tree, (child) => (inner || !isFunction(child)) && some(child, test, inner));
}

function isTree(value: unknown): value is AnyNode {
  return typeof value === 'object' && value !== null && 'type' in value;
}

/** A function with a body of its own names. */
export type FunctionNode = Extract<
  AnyNode,
  { type: 'FunctionDeclaration' | 'FunctionExpression' }
> & {
  /** Names of the variables it declares; see `spreadVariables`. */
  names?: string[];
};

export function isFunction(node: AnyNode): node is FunctionNode {
  return node.type === 'FunctionDeclaration' || node.type === 'FunctionExpression';
}

/** The function with other names and another body. */
export function withBody(
  node: FunctionNode,
  names: readonly string[],
  body: readonly AnyNode[] = node.body.body,
): FunctionNode {
  const copy = { ...node, names: [...names], body: { ...node.body, body: [...body] } };
  return copy as FunctionNode;
}

const nowhere = { start: 0, end: 0 };

export function identifier(name: string): Identifier {
  return { type: 'Identifier', name, ...nowhere };
}

/** A whole number or a truth value as an expression. */
export function literal(value: number | boolean): Expression {
  const raw = typeof value === 'number' ? String(Math.abs(value)) : String(value);
  const size = typeof value === 'number' ? Math.abs(value) : value;
  const plain: Literal = { type: 'Literal', value: size, raw, ...nowhere };
  return typeof value === 'number' && value < 0
    ? { type: 'UnaryExpression', operator: '-', prefix: true, argument: plain, ...nowhere }
    : plain;
}

/** The statement `name = value;`. */
export function assign(name: string, value: Expression): Statement {
  return {
    type: 'ExpressionStatement',
    expression: {
      type: 'AssignmentExpression',
      operator: '=',
      left: identifier(name),
      right: value,
      ...nowhere,
    },
    ...nowhere,
  };
}

export function expressionStatement(expression: Expression): Statement {
  return { type: 'ExpressionStatement', expression, ...nowhere };
}

export function block(body: Statement[]): Statement {
  return { type: 'BlockStatement', body, ...nowhere };
}

export function ifStatement(
  test: Expression,
  then: Statement[],
  otherwise: Statement[],
): Statement {
  const alternate = otherwise.length > 0 ? block(otherwise) : null;
  return { type: 'IfStatement', test, consequent: block(then), alternate, ...nowhere };
}

/** The statements of a branch; blocks in it, which ES5 gives no names of their own, dissolved. */
export function statementsOf(branch: Statement | null | undefined): Statement[] {
  if (branch == null || branch.type === 'EmptyStatement') return [];
  return branch.type === 'BlockStatement' ? branch.body.flatMap(statementsOf) : [branch];
}

/** `!argument`. */
export function not(argument: Expression): Expression {
  return { type: 'UnaryExpression', operator: '!', prefix: true, argument, start: 0, end: 0 };
}
