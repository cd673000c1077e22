import type { AnyNode, ForStatement, Program, Statement } from 'acorn';
import { generate } from 'astring';
import { knownValue } from './fold.ts';
import { inTail } from './in-tail.ts';
import {
  assign,
  block,
  type FunctionNode,
  isFunction,
  literal,
  mapChildren,
  mapReadable,
  some,
  statementsOf,
  withBody,
  withStatements,
} from './tree.ts';
import { assignedBy, collectNames, isLoop, type Name } from './uses.ts';
import { plainAssignment } from './variables.ts';
import { isWrittenFirst } from './written-first.ts';

/**
 * Writes a loop of known rounds out, round after round: the index becomes a number, and an array
 * that is reached by such numbers alone needs not be one. Where that makes code longer than `most`
 * characters, the loop stays. Each round has variables of its own.
 *
 * @param fills true = also loops that do no more than fill a list reached by numbers alone
 */
export function unrollLoops(program: Program, most: number, fills = false): Program {
  const names = collectNames(program);
  const rewrite = (node: AnyNode, added: string[]): AnyNode => {
    if (isFunction(node)) {
      const own: string[] = [];
      const copy = mapChildren(node, (child) => rewrite(child, own));
      return withBody(copy as FunctionNode, [...(copy.names ?? []), ...own]);
    }
    if (node.type !== 'BlockStatement') return mapChildren(node, (child) => rewrite(child, added));
    const body = node.body.flatMap((statement, i) => {
      const [room, times] =
        fills && isFill(statement, names) ? FILLED : ([most, MOST_ROUNDS] as const);
      const rounds = roundsOf(statement, node.body[i - 1], room, times);
      if (rounds === undefined || !isOwn(names.get(rounds.counter)))
        return [rewrite(statement, added) as Statement];
      return written(statement as ForStatement, rounds, names, added);
    });
    return withStatements(node, body);
  };
  return rewrite(program, []) as Program;
}

/** A counter and the values it takes. */
interface Rounds {
  counter: string;
  values: readonly number[];
  /** The body without `continue`. */
  body: Statement[];
}

function roundsOf(loop: Statement, before: Statement | undefined, most: number, times: number) {
  if (loop.type !== 'ForStatement' || loop.init || loop.test?.type !== 'BinaryExpression') return;
  const { left, operator, right } = loop.test;
  const set = before && plainAssignment(before);
  if (set === undefined || left.type !== 'Identifier' || left.name !== set.name) return;
  const [from, to] = [knownValue(set.value), knownValue(right)];
  if (typeof from !== 'number' || typeof to !== 'number' || operator !== '<') return;
  if (!countsUp(loop.update, set.name) || writes(loop.body, set.name)) return;
  const count = Math.max(0, to - from);
  if (count > times) return;
  const size = generate(loop.body).replace(/\s+|\$\w+/g, '').length;
  if (count > 1 && (count - 1) * size > most) return;
  const body = inTail(statementsOf(loop.body), () => [], 'ContinueStatement');
  if (body === undefined || body.some(isUnfit)) return;
  const values = Array.from({ length: count }, (_, i) => from + i);
  return { counter: set.name, values, body };
}

/** true if no function inside sees the variable. */
function isOwn(name: Name | undefined): boolean {
  return name?.uses.every(({ within }) => within === name.owner) === true;
}

/** As many as there are motors. */
const MOST_ROUNDS = 4;
/** Characters and rounds of a loop that fills a list: what is left of it is one step. */
const FILLED = [100, 9] as const;

/** true for a loop that gives all elements of a list the same, which is else reached by numbers. */
function isFill(loop: Statement, names: ReadonlyMap<string, Name>): boolean {
  if (loop.type !== 'ForStatement') return false;
  const [step, another] = statementsOf(loop.body);
  if (step?.type !== 'ExpressionStatement' || another !== undefined) return false;
  const { expression } = step;
  if (expression.type !== 'AssignmentExpression' || expression.operator !== '=') return false;
  const { left, right } = expression;
  if (left.type !== 'MemberExpression' || !left.computed) return false;
  if (knownValue(right) === undefined || left.object.type !== 'Identifier') return false;
  const list = names.get(left.object.name);
  return (
    list?.kind === 'variable' &&
    list.uses.every((use) => {
      const around = use.ancestors[use.ancestors.length - 1];
      if (use.kind === 'write') return assignedBy(use)?.type === 'ArrayExpression';
      if (around?.type !== 'MemberExpression' || around.object !== use.node) return false;
      return around.computed && (around === left || knownValue(around.property) !== undefined);
    })
  );
}

function countsUp(update: AnyNode | null | undefined, counter: string): boolean {
  if (update?.type !== 'UpdateExpression' || update.operator !== '++') return false;
  return update.argument.type === 'Identifier' && update.argument.name === counter;
}

function writes(tree: AnyNode, name: string): boolean {
  return some(tree, (node) => {
    const target =
      node.type === 'AssignmentExpression'
        ? node.left
        : node.type === 'UpdateExpression'
          ? node.argument
          : undefined;
    return target?.type === 'Identifier' && target.name === name;
  });
}

/** What leaves the loop, or needs a function of its own each round. */
function isUnfit(statement: Statement): boolean {
  return some(
    statement,
    (node) =>
      isFunction(node) || /^(Break|Continue|Return|Try|Switch|Labeled)Statement$/.test(node.type),
  );
}

function written(
  loop: ForStatement,
  { counter, values, body }: Rounds,
  names: ReadonlyMap<string, Name>,
  added: string[],
): Statement[] {
  const own = [...names.values()].filter((name) => isOfRound(name, loop)).map(({ name }) => name);
  const rounds = values.map((value, round) => {
    const renamed = new Map(own.map((name) => [name, `${name}$r${round}`]));
    added.push(...renamed.values());
    const visit = (node: AnyNode): AnyNode => {
      if (node.type === 'Identifier') {
        if (node.name === counter) return literal(value);
        return { ...node, name: renamed.get(node.name) ?? node.name };
      }
      return mapReadable(node, visit);
    };
    return body.map((statement) => visit(statement) as Statement);
  });
  // The counter may be read after the loop.
  const end = assign(counter, literal(values.length > 0 ? values[values.length - 1]! + 1 : 0));
  return values.length > 0 ? [...rounds.flat(), end] : [block([])];
}

/** true for a variable that nothing outside the loop uses, and no round reads from another. */
function isOfRound(name: Name, loop: ForStatement): boolean {
  const { kind, uses } = name;
  return (
    kind === 'variable' &&
    uses.length > 0 &&
    uses.every(({ ancestors, within }) => {
      const at = ancestors.indexOf(loop);
      return at >= 0 && within === name.owner && !ancestors.slice(0, at).some(isLoop);
    }) &&
    isWrittenFirst(loop.body, name.name)
  );
}
