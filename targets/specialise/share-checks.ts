import type { AnyNode, Expression, MemberExpression, Program, Statement } from 'acorn';
import { generate } from 'astring';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { isSame } from './shapes.ts';
import {
  assign,
  block,
  callOf,
  choice,
  elementOf,
  type FunctionNode,
  functionReturning,
  identifier,
  isFunction,
  mapChildren,
  mapReadable,
  outermost,
  some,
  statementsOf,
  visitChildren,
  withBody,
  withStatements,
} from './tree.ts';
import { plainAssignment } from './variables.ts';

/**
 * Has fields that are read, checked alike and put right where they hold something else taken in by
 * one function. It puts them back in any case, which makes no difference: they are the record's
 * own, and nothing stands between them and what they hold.
 *
 * @param fields names that stay as they are; undefined = all do
 */
export function shareChecks(program: Program, fields?: readonly string[]): Program {
  const groups = new Map<string, Check[]>();
  for (const check of checksIn(program, fields)) {
    groups.set(check.rule, [...(groups.get(check.rule) ?? []), check]);
  }
  const shared = [...groups.values()].filter((checks) => checks.length >= LEAST);
  if (shared.length === 0) return program;
  const steps = new Map<AnyNode, Statement>();
  const made = shared.map((checks, i) => {
    const name = `taken$${i}`;
    for (const { read, repair, x, field } of checks) {
      steps.set(read, assign(x, callOf(name, [field.object as Expression, nameOf(field)])));
      steps.set(repair, block([]));
    }
    return functionFor(checks[0]!, name);
  });
  const owner = outermost(program);
  const visit = (node: AnyNode): AnyNode => {
    const step = steps.get(node);
    if (step !== undefined) return step;
    const copy = mapChildren(node, visit);
    if (copy.type === 'BlockStatement') {
      return withStatements(copy, copy.body.flatMap(statementsOf));
    }
    if (node !== owner || !isFunction(copy)) return copy;
    return withBody(copy, copy.names ?? [], [...made, ...copy.body.body]);
  };
  return visit(program) as Program;
}

/** So many take less text by a function. */
const LEAST = 4;

/** `x = r.f; if (test) { x = value; r.f = value; }`. */
interface Check {
  read: Statement;
  repair: Statement;
  x: string;
  field: MemberExpression;
  test: Expression;
  value: Expression;
  /** The test with another name for x, and the value. */
  rule: string;
}

function checksIn(program: Program, fields: readonly string[] | undefined): Check[] {
  const found: Check[] = [];
  const visit = (node: AnyNode): void => {
    if (node.type === 'BlockStatement') {
      node.body.forEach((repair, i) => {
        const check = checkAt(node.body[i - 1], repair, fields);
        if (check !== undefined) found.push(check);
      });
    }
    visitChildren(node, visit);
  };
  visit(program);
  return found;
}

function checkAt(
  read: Statement | undefined,
  repair: Statement,
  fields: readonly string[] | undefined,
): Check | undefined {
  const set = read && plainAssignment(read);
  if (read === undefined || repair.type !== 'IfStatement' || repair.alternate) return undefined;
  const field = set?.value;
  if (set === undefined || field?.type !== 'MemberExpression' || field.computed) return undefined;
  if (field.object.type !== 'Identifier' || field.object.name === set.name) return undefined;
  if (fields?.includes((field.property as { name: string }).name) === false) return undefined;
  const { test } = repair;
  const isOther = (one: AnyNode) => one.type === 'Identifier' && one.name !== set.name;
  const isPart = (one: AnyNode) => /^(Member|Call)Expression$/.test(one.type);
  if (!isPure(test) || some(test, (one) => isOther(one) || isPart(one))) return undefined;
  const value = valueGiven(statementsOf(repair.consequent), set.name, field);
  if (value === undefined) return undefined;
  const rule = `${generate(renamed(test, set.name))} ${knownValue(value)}`;
  return { read, repair, x: set.name, field, test, value, rule };
}

/** The number that two statements give both. */
function valueGiven(
  body: readonly Statement[],
  x: string,
  field: MemberExpression,
): Expression | undefined {
  const [first, second] = body;
  if (first === undefined || second === undefined || body.length > 2) return undefined;
  for (const [one, other] of [
    [first, second],
    [second, first],
  ] as const) {
    const set = plainAssignment(one);
    const put = other.type === 'ExpressionStatement' ? other.expression : undefined;
    if (set?.name !== x || put?.type !== 'AssignmentExpression' || put.operator !== '=') continue;
    if (!isSame(put.left, field) || !isSame(put.right, set.value)) continue;
    if (typeof knownValue(set.value) === 'number') return set.value;
  }
  return undefined;
}

const X = 'x';

function renamed(test: Expression, x: string, to = X): Expression {
  const visit = (node: AnyNode): AnyNode =>
    node.type === 'Identifier' && node.name === x ? identifier(to) : mapReadable(node, visit);
  return visit(test) as Expression;
}

function nameOf({ property }: MemberExpression): Expression {
  const { name } = property as { name: string };
  return { type: 'Literal', value: name, raw: `'${name}'`, start: 0, end: 0 };
}

/** `function name(r, f) { x = r[f]; return r[f] = test ? value : x; }`. */
function functionFor({ test, value, x }: Check, name: string): FunctionNode {
  const [record, field, held] = [`${name}$of`, `${name}$at`, `${name}$held`];
  const place = () => elementOf(record, identifier(field));
  const right = choice(renamed(test, x, held), value, identifier(held));
  const nowhere = { start: 0, end: 0 };
  const put: Expression = {
    type: 'AssignmentExpression',
    operator: '=',
    left: place(),
    right,
    ...nowhere,
  };
  const params = [identifier(record), identifier(field)];
  const made = functionReturning(name, params, put) as FunctionNode;
  return withBody(made, [held], [assign(held, place()), ...made.body.body]);
}
