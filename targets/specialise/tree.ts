import type {
  AnyNode,
  BlockStatement,
  Expression,
  FunctionDeclaration,
  Identifier,
  Literal,
  MemberExpression,
  Program,
  Statement,
} from 'acorn';
import { childFields } from './child-fields.ts';

/** What stands in a field that holds children. */
type Field = AnyNode | readonly (AnyNode | null)[] | null | undefined;
type Fields = Record<string, Field>;

/** A node in which each child is what `map` makes of it; itself where that changes nothing. */
export function mapChildren<T extends AnyNode>(node: T, map: (child: AnyNode) => AnyNode): T;
export function mapChildren(node: AnyNode, map: (child: AnyNode) => AnyNode): AnyNode {
  // As in `visitChildren`.
  switch (node.type) {
    case 'Identifier':
    case 'Literal':
      return node;
    case 'MemberExpression': {
      const [object, property] = [map(node.object), map(node.property)];
      const isSame = object === node.object && property === node.property;
      return isSame ? node : ({ ...node, object, property } as AnyNode);
    }
    case 'BinaryExpression':
    case 'LogicalExpression':
    case 'AssignmentExpression': {
      const left = map(node.left);
      const right = map(node.right);
      const isSame = left === node.left && right === node.right;
      return isSame ? node : ({ ...node, left, right } as AnyNode);
    }
    case 'ExpressionStatement': {
      const expression = map(node.expression);
      return expression === node.expression ? node : ({ ...node, expression } as AnyNode);
    }
    case 'BlockStatement': {
      const body = mapList(node.body, map);
      return body === node.body ? node : ({ ...node, body } as AnyNode);
    }
    default:
      return mapFields(node, map);
  }
}

function mapFields(node: AnyNode, map: (child: AnyNode) => AnyNode): AnyNode {
  const fields = node as unknown as Fields;
  let copy: Fields | undefined;
  for (const key of childFields(node.type)) {
    const value = fields[key];
    if (!value) continue;
    const mapped = isList(value) ? mapList(value, map) : map(value);
    if (mapped === value) continue;
    copy ??= { ...fields };
    copy[key] = mapped;
  }
  return (copy ?? node) as AnyNode;
}

/** As `mapChildren`, but over what is evaluated: names of fields stay. */
export function mapReadable(node: AnyNode, visit: (child: AnyNode) => AnyNode): AnyNode {
  if (node.type === 'MemberExpression' && !node.computed) {
    const object = visit(node.object);
    return object === node.object ? node : ({ ...node, object } as AnyNode);
  }
  if (node.type === 'Property') {
    const value = visit(node.value);
    return value === node.value ? node : ({ ...node, value } as AnyNode);
  }
  return mapChildren(node, visit);
}

/** As `visitChildren`, of what is evaluated: names of fields are left out. */
export function visitReadable(node: AnyNode, visit: (child: AnyNode) => unknown): boolean {
  if (node.type === 'MemberExpression' && !node.computed) return visit(node.object) === true;
  if (node.type === 'Property') return visit(node.value) === true;
  return visitChildren(node, visit);
}

/** What an assignment or an update gives a value; undefined for all else. */
export function targetOf(node: AnyNode): AnyNode | undefined {
  if (node.type === 'AssignmentExpression') return node.left;
  return node.type === 'UpdateExpression' ? node.argument : undefined;
}

/** As `mapChildren`, of a list. */
function mapList(
  list: readonly (AnyNode | null)[],
  map: (child: AnyNode) => AnyNode,
): readonly (AnyNode | null)[] {
  let copy: (AnyNode | null)[] | undefined;
  for (let i = 0; i < list.length; i++) {
    const one = list[i];
    if (!one) continue;
    const mapped = map(one);
    if (mapped === one) continue;
    copy ??= [...list];
    copy[i] = mapped;
  }
  return copy ?? list;
}

function isList(value: NonNullable<Field>): value is readonly (AnyNode | null)[] {
  return Array.isArray(value);
}

/**
 * A tree, each node replaced, from the leaves up, by what `change` makes of it; itself where that
 * changes nothing.
 *
 * @param settled for a change that depends on nothing outside the node: the nodes it is known to
 *   leave as they are, which are not looked at again; those found are added
 */
export function mapTree<T extends AnyNode>(
  tree: T,
  change: (node: AnyNode) => AnyNode,
  settled?: Set<AnyNode>,
): T {
  const visit = (node: AnyNode): AnyNode => {
    if (node.type === 'Identifier' || node.type === 'Literal') return change(node);
    if (settled?.has(node)) return node;
    const changed = change(mapChildren(node, visit));
    if (changed === node) settled?.add(node);
    return changed;
  };
  return visit(tree) as T;
}

/** The same tree, but no name at two places is one node: what holds at one need not at both. */
export function namesApart<T extends AnyNode>(tree: T): T {
  return mapTree(tree, (node) => (node.type === 'Identifier' ? { ...node } : node));
}

/** As `mapTree`, of the nodes that are touched alone, and those above each. */
export function mapTouched<T extends AnyNode>(
  tree: T,
  touched: ReadonlySet<AnyNode>,
  change: (node: AnyNode) => AnyNode,
): T {
  const visit = (node: AnyNode): AnyNode =>
    touched.has(node) ? change(mapChildren(node, visit)) : node;
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
 * The kinds that come most often are told apart here: to look up the fields of each takes longer.
 *
 * @returns whether it did
 */
export function visitChildren(node: AnyNode, visit: (child: AnyNode) => unknown): boolean {
  switch (node.type) {
    case 'Identifier':
    case 'Literal':
      return false;
    case 'MemberExpression':
      return visit(node.object) === true || visit(node.property) === true;
    case 'BinaryExpression':
    case 'LogicalExpression':
    case 'AssignmentExpression':
      return visit(node.left) === true || visit(node.right) === true;
    case 'ExpressionStatement':
      return visit(node.expression) === true;
    case 'BlockStatement':
      return visitList(node.body, visit);
    case 'CallExpression':
      return visit(node.callee) === true || visitList(node.arguments, visit);
    case 'IfStatement':
    case 'ConditionalExpression':
      if (visit(node.test) === true || visit(node.consequent) === true) return true;
      return node.alternate != null && visit(node.alternate) === true;
    default:
      return visitFields(node, visit);
  }
}

function visitFields(node: AnyNode, visit: (child: AnyNode) => unknown): boolean {
  const fields = node as unknown as Fields;
  for (const key of childFields(node.type)) {
    const value = fields[key];
    if (!value) continue;
    if (isList(value) ? visitList(value, visit) : visit(value) === true) return true;
  }
  return false;
}

function visitList(list: readonly (AnyNode | null)[], visit: (child: AnyNode) => unknown): boolean {
  for (const one of list) if (one && visit(one) === true) return true;
  return false;
}

/** true if `test` holds for a node of the tree; functions inside are entered if `inner`. */
export function some(tree: AnyNode, test: (node: AnyNode) => boolean, inner = true): boolean {
  const look = (node: AnyNode): boolean => test(node) || visitChildren(node, below);
  const below = inner ? look : (node: AnyNode): boolean => !isFunction(node) && look(node);
  return look(tree);
}

/** true if a name stands anywhere in the tree. */
export function mentions(tree: AnyNode, name: string): boolean {
  return some(tree, (node) => node.type === 'Identifier' && node.name === name);
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

/** The first function in a program, which is around all others of a script. */
export function outermost(program: Program): FunctionNode {
  let found: FunctionNode | undefined;
  const visit = (node: AnyNode): boolean => {
    if (isFunction(node)) found ??= node;
    return found !== undefined || visitChildren(node, visit);
  };
  visit(program);
  return found!;
}

/** The function with these names and this body; itself if it has them. */
export function withBody(
  node: FunctionNode,
  names: readonly string[],
  body: readonly AnyNode[] = node.body.body,
): FunctionNode {
  const inner = withStatements(node.body, body);
  if (inner === node.body && node.names && isSameList(node.names, names)) return node;
  return { ...node, names: [...names], body: inner } as FunctionNode;
}

/** The block with these statements; itself if it has them. */
export function withStatements(node: BlockStatement, body: readonly AnyNode[]): BlockStatement {
  return isSameList(node.body, body) ? node : { ...node, body: [...body] as Statement[] };
}

function isSameList<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((one, i) => one === b[i]);
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

/** `test ? then : otherwise`. */
export function choice(test: Expression, then: Expression, otherwise: Expression): Expression {
  const parts = { test, consequent: then, alternate: otherwise };
  return { type: 'ConditionalExpression', ...parts, ...nowhere };
}

/** `list[property]`. */
export function elementOf(list: string, property: Expression): MemberExpression {
  const parts = { object: identifier(list), property, computed: true, optional: false };
  return { type: 'MemberExpression', ...parts, ...nowhere };
}

/** `name(given)`. */
export function callOf(name: string, given: Expression[]): Expression {
  const parts = { callee: identifier(name), arguments: given, optional: false };
  return { type: 'CallExpression', ...parts, ...nowhere };
}

/** `function name(params) { return value; }`. */
export function functionReturning(
  name: string,
  params: Identifier[],
  value: Expression,
): FunctionDeclaration {
  const body: Statement[] = [{ type: 'ReturnStatement', argument: value, ...nowhere }];
  return {
    type: 'FunctionDeclaration',
    id: identifier(name),
    params,
    body: { type: 'BlockStatement', body, ...nowhere },
    generator: false,
    async: false,
    expression: false,
    ...nowhere,
  };
}

/** `!argument`. */
export function not(argument: Expression): Expression {
  return { type: 'UnaryExpression', operator: '!', prefix: true, argument, start: 0, end: 0 };
}
