const NONE: readonly string[] = [];
const ONE = ['argument'];
const TEST = ['test', 'consequent', 'alternate'];
const SIDES = ['left', 'right'];
const CALL = ['callee', 'arguments'];
const FUNCTION = ['id', 'params', 'body'];

/** By type of an ES5 node, the fields that hold nodes, or lists of nodes, right below it. */
const FIELDS: Readonly<Record<string, readonly string[]>> = {
  ArrayExpression: ['elements'],
  AssignmentExpression: SIDES,
  BinaryExpression: SIDES,
  BlockStatement: ['body'],
  BreakStatement: ['label'],
  CallExpression: CALL,
  CatchClause: ['param', 'body'],
  ConditionalExpression: TEST,
  ContinueStatement: ['label'],
  DebuggerStatement: NONE,
  DoWhileStatement: ['body', 'test'],
  EmptyStatement: NONE,
  ExpressionStatement: ['expression'],
  ForInStatement: ['left', 'right', 'body'],
  ForStatement: ['init', 'test', 'update', 'body'],
  FunctionDeclaration: FUNCTION,
  FunctionExpression: FUNCTION,
  Identifier: NONE,
  IfStatement: TEST,
  LabeledStatement: ['label', 'body'],
  Literal: NONE,
  LogicalExpression: SIDES,
  MemberExpression: ['object', 'property'],
  NewExpression: CALL,
  ObjectExpression: ['properties'],
  Program: ['body'],
  Property: ['key', 'value'],
  ReturnStatement: ONE,
  SequenceExpression: ['expressions'],
  SwitchCase: ['test', 'consequent'],
  SwitchStatement: ['discriminant', 'cases'],
  ThisExpression: NONE,
  ThrowStatement: ONE,
  TryStatement: ['block', 'handler', 'finalizer'],
  UnaryExpression: ONE,
  UpdateExpression: ONE,
  VariableDeclaration: ['declarations'],
  VariableDeclarator: ['id', 'init'],
  WhileStatement: ['test', 'body'],
  WithStatement: ['object', 'body'],
};

/**
 * The fields of an ES5 node that hold what is right below it, in the order of the source; each one
 * a node, a list of nodes with holes, or nothing. Passes look at millions of nodes: going by all
 * fields of each takes twice as long.
 *
 * @throws Error if ES5 has no such node
 */
export function childFields(type: string): readonly string[] {
  // Two of three nodes.
  if (type === 'Identifier' || type === 'Literal') return NONE;
  const fields = FIELDS[type];
  if (fields === undefined) throw new Error(`no node of ES5: ${type}`);
  return fields;
}
