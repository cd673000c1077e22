import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { isSimple, type Live, liveAfter } from './interference.ts';
import { isPure } from './is-pure.ts';
import {
  assign,
  isFunction,
  mapChildren,
  mapReadable,
  some,
  visitReadable,
  withStatements,
} from './tree.ts';
import { collectNames, type Name } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Puts what a variable is given in the place where alone it is read, if that comes soon and nothing
 * in between changes what it is computed from.
 */
export function joinSteps(program: Program): Program {
  const single = new Set<string>();
  const owned = new Map<AnyNode, Set<string>>();
  for (const name of collectNames(program).values()) {
    if (isSingle(name)) single.add(name.name);
    if (name.kind === 'function' || name.owner === undefined) continue;
    owned.set(name.owner, (owned.get(name.owner) ?? new Set()).add(name.name));
  }
  const visit = (node: AnyNode, live: Lives): AnyNode => {
    if (isFunction(node)) {
      const own = isSimple(node) ? (owned.get(node) ?? new Set<string>()) : new Set<string>();
      const inner = { own, after: own.size > 0 ? liveAfter(node, own) : NOWHERE.after };
      return mapChildren(node, (child) => visit(child, inner));
    }
    if (node.type !== 'BlockStatement' || node.body.every(isFunction)) {
      return mapChildren(node, (child) => visit(child, live));
    }
    const body = joined(node.body, single, live);
    return withStatements(
      node,
      body.map((one) => visit(one, live)),
    );
  };
  return visit(program, NOWHERE) as Program;
}

/** Names of a function, and which of them are still read after each statement. */
interface Lives {
  own: ReadonlySet<string>;
  after: ReadonlyMap<AnyNode, Live>;
}

const NOWHERE: Lives = { own: new Set(), after: new Map() };

/** true if it is written once and read once, by the function that owns it. */
function isSingle({ kind, owner, uses }: Name): boolean {
  const [write, read, another] = uses;
  return (
    kind === 'variable' &&
    write?.kind === 'write' &&
    read?.kind === 'read' &&
    another === undefined &&
    write.within === owner &&
    read.within === owner
  );
}

function joined(body: readonly Statement[], single: ReadonlySet<string>, live: Lives): Statement[] {
  const out: Statement[] = [];
  for (const statement of body) {
    let now = statement;
    const after = live.after.get(statement);
    // From the nearest one back, so that a chain of steps becomes one.
    for (let i = out.length - 1; i >= 0 && i >= out.length - FAR; i--) {
      const set = plainAssignment(out[i]!);
      if (set === undefined || !isPure(set.value)) continue;
      const { name, value } = set;
      const between = out.slice(i + 1);
      if (!single.has(name)) {
        // What is given before is not read again.
        if (!live.own.has(name) || readsIn(now, name) !== 1 || mayJump(now)) continue;
        if (after?.has(name) !== false && targetOf(now) !== name) continue;
        if (between.some((one) => reads(one, name))) continue;
      }
      const next = placeIn(now, name, value);
      if (next === undefined || !between.every((one) => keeps(one, value, live.own))) continue;
      out.splice(i, 1);
      now = next;
    }
    out.push(now);
  }
  return out;
}

/** true if what is run after the statement may be another round of a loop, or what follows that. */
function mayJump(statement: Statement): boolean {
  return some(statement, ({ type }) => /^(Continue|Break)Statement$/.test(type));
}

/** How many steps back a value may come from. */
const FAR = 12;

/** The statement with the value in place of the name; undefined if it is not to be put there. */
function placeIn(statement: Statement, name: string, value: Expression): Statement | undefined {
  if (!/^(Expression|Return|If)Statement$/.test(statement.type)) return undefined;
  const part = statement.type === 'IfStatement' ? statement.test : statement;
  if (!reads(part, name)) return undefined;
  const joint = jointStep(statement, name, value);
  if (joint !== undefined) return joint;
  let safe = true;
  let found = false;
  /** In order of evaluation: nothing that changes anything may come before the name. */
  const visit = (node: AnyNode): AnyNode => {
    if (node.type === 'Identifier' && node.name === name) {
      found = true;
      return value;
    }
    if (node.type === 'UpdateExpression') {
      safe = false;
      return node;
    }
    if (!found && /^(Call|New)Expression$/.test(node.type)) {
      const copy = mapReadable(node, visit);
      safe &&= found;
      return copy;
    }
    if (node.type === 'AssignmentExpression') {
      // A compound one reads its target first.
      if (node.operator !== '=' && node.left.type === 'Identifier') {
        safe &&= found || !reads(value, node.left.name);
      }
      const right = visit(node.right) as Expression;
      if (node.left.type === 'Identifier') {
        safe &&= found;
        return { ...node, right };
      }
      const left = visit(node.left);
      safe &&= found;
      return { ...node, left, right } as AnyNode;
    }
    return mapReadable(node, visit);
  };
  const placed = visit(part);
  if (!safe || !found) return undefined;
  return (
    statement.type === 'IfStatement' ? { ...statement, test: placed as Expression } : placed
  ) as Statement;
}

/** `name = value + x` for `name += x`. */
function jointStep(statement: Statement, name: string, left: Expression): Statement | undefined {
  if (statement.type !== 'ExpressionStatement') return undefined;
  const { expression } = statement;
  if (expression.type !== 'AssignmentExpression' || targetOf(statement) !== name) return undefined;
  const { operator, right } = expression;
  if (operator === '=' || !isPure(right) || reads(right, name)) return undefined;
  const sum = { type: 'BinaryExpression', operator: operator.slice(0, -1), left, right };
  return assign(name, { ...sum, start: 0, end: 0 } as Expression);
}

/** The name that a statement gives a value, whatever else it does. */
function targetOf(statement: Statement): string | undefined {
  if (statement.type !== 'ExpressionStatement') return undefined;
  const { expression } = statement;
  if (expression.type !== 'AssignmentExpression') return undefined;
  return expression.left.type === 'Identifier' ? expression.left.name : undefined;
}

/** true if the name is read or written. */
function reads(tree: AnyNode, name: string): boolean {
  if (tree.type === 'Identifier') return tree.name === name;
  return visitReadable(tree, (child) => reads(child, name));
}

/** At how many places a name is read. */
function readsIn(tree: AnyNode, name: string): number {
  if (tree.type === 'Identifier') return tree.name === name ? 1 : 0;
  const isWritten =
    tree.type === 'AssignmentExpression' &&
    tree.operator === '=' &&
    tree.left.type === 'Identifier';
  if (isWritten) return readsIn(tree.right, name);
  let count = 0;
  visitReadable(tree, (child) => {
    count += readsIn(child, name);
  });
  return count;
}

/** true if the statement is a step that changes nothing the value is computed from. */
function keeps(statement: Statement, value: Expression, own: ReadonlySet<string>): boolean {
  const set = plainAssignment(statement);
  if (set === undefined || !isPure(set.value)) return false;
  // What is called may read whatever is not the function's own.
  if (!own.has(set.name) && some(value, ({ type }) => type === 'CallExpression')) return false;
  return !reads(value, set.name);
}
