import type { AnyNode, MemberExpression } from 'acorn';
import { conditionalStep } from './conditional-step.ts';
import { knownValue } from './fold.ts';
import type { Live } from './interference.ts';
import { isPure } from './is-pure.ts';
import { isSame } from './shapes.ts';
import { mentions, some, targetOf, visitReadable } from './tree.ts';
import { assignedBy, isInLoop, isOwnStatement, type Name, writesOf } from './uses.ts';
import { plainAssignment } from './variables.ts';
import { isWrittenFirst } from './written-first.ts';

/** What is known of a loop. */
export interface Round {
  counter: string;
  /** Names of its function that are read after it. */
  after: Live;
  /** What names are given right before it. */
  given: ReadonlyMap<string, number>;
  names: ReadonlyMap<string, Name>;
}

/** true if rounds of a loop may be run in any order: none sees what another one leaves. */
export function isOrderless(body: AnyNode, round: Round): boolean {
  const { counter, names } = round;
  const isOther = ({ type }: AnyNode) => OTHER.test(type);
  if (some(body, isOther)) return false;
  const elements: Element[] = [];
  const written = new Set<string>();
  const visit = (node: AnyNode, isTarget: boolean): void => {
    if (node.type === 'MemberExpression') elements.push({ node, isTarget });
    const target = targetOf(node);
    if (target !== undefined) {
      if (target.type === 'Identifier') written.add(target.name);
      visit(target, true);
      if (node.type === 'AssignmentExpression') visit(node.right, false);
      return;
    }
    visitReadable(node, (child) => {
      visit(child, false);
    });
  };
  visit(body, false);
  if (written.has(counter) || !areApart(elements, counter, names)) return false;
  return [...written].every(
    (name) =>
      isOwnEachRound(name, body, round) ||
      isFlag(name, body) ||
      isCount(name, body) ||
      isGreatest(name, body, round),
  );
}

const LEAVES = 'Break|Return|Throw|Try|For|ForIn|While|DoWhile|Switch|Labeled';
const OTHER = new RegExp(`^(Call|New|Function|Sequence)Expression$|^(${LEAVES})Statement$`);

interface Element {
  node: MemberExpression;
  isTarget: boolean;
}

/** true if no round writes an element that another one reads or writes. */
function areApart(
  elements: readonly Element[],
  counter: string,
  names: ReadonlyMap<string, Name>,
): boolean {
  const lists = new Map<string, Element[]>();
  for (const element of elements) {
    const { object, computed } = element.node;
    if (!computed || object.type !== 'Identifier') return false;
    lists.set(object.name, [...(lists.get(object.name) ?? []), element]);
  }
  const isAt = ({ node }: Element) =>
    node.property.type === 'Identifier' && node.property.name === counter;
  const others = [...lists.keys()].filter((name) => !isFresh(names.get(name)));
  // One from elsewhere is none of the lists that never leave.
  if (others.length > 1) return false;
  const foreign = others[0];
  return [...lists].every(([name, all]) => {
    if (foreign === undefined) return all.every(isAt) || !all.some(({ isTarget }) => isTarget);
    return name === foreign ? all.every(isAt) : all.every(isAt) && staysIn(names.get(name)!);
  });
}

/** true for the one list that was made for a name: no other name stands for it at first. */
function isFresh(name: Name | undefined): name is Name {
  if (name === undefined || name.kind !== 'variable') return false;
  const [made, another] = writesOf(name);
  if (made === undefined || another !== undefined) return false;
  if (made.within !== name.owner || isInLoop(made) || !isOwnStatement(made)) return false;
  return assignedBy(made)?.type === 'ArrayExpression';
}

/** true if a list is used for its elements alone. */
function staysIn({ uses }: Name): boolean {
  return uses.every(({ node, kind, ancestors }) => {
    const element = ancestors[ancestors.length - 1];
    const isElement = element?.type === 'MemberExpression' && element.computed;
    return kind === 'write' || (isElement && element.object === node);
  });
}

/** true if each round gives the name a value before it reads it, and none is read later on. */
function isOwnEachRound(name: string, body: AnyNode, { after, names, counter }: Round): boolean {
  const isOwn = names.get(name)?.owner === names.get(counter)!.owner;
  return isOwn && !after.has(name) && isWrittenFirst(body, name);
}

/** true if it is only ever given the same number. */
function isFlag(name: string, body: AnyNode): boolean {
  const values: (number | boolean | undefined)[] = [];
  const rest = without(body, (node) => {
    const set = plainAssignment(node);
    if (set?.name !== name) return false;
    values.push(knownValue(set.value));
    return true;
  });
  const [first] = values;
  return rest(name) && first !== undefined && values.every((one) => Object.is(one, first));
}

/** true if it is only ever counted up. */
function isCount(name: string, body: AnyNode): boolean {
  return without(body, (node) => {
    const step = node.type === 'ExpressionStatement' ? node.expression : undefined;
    if (step?.type !== 'UpdateExpression' || step.operator !== '++') return false;
    return step.argument.type === 'Identifier' && step.argument.name === name;
  })(name);
}

/**
 * true if it becomes the greatest of some numbers, from 0 or more on: what is no number is passed
 * over, and zeros of either sign are.
 */
function isGreatest(name: string, body: AnyNode, { given }: Round): boolean {
  if (!((given.get(name) ?? -1) >= 0)) return false;
  return without(body, (node) => {
    const step = conditionalStep(node);
    if (step?.name !== name || !isPure(step.value) || mentions(step.value, name)) return false;
    const { test, value } = step;
    if (test.type !== 'BinaryExpression') return false;
    const isName = (one: AnyNode) => one.type === 'Identifier' && one.name === name;
    const [less, greater] =
      test.operator === '<' ? [test.left, test.right] : [test.right, test.left];
    return /^[<>]$/.test(test.operator) && isName(less) && isSame(greater, value);
  })(name);
}

/** Whether a name is used nowhere but in certain statements. */
function without(body: AnyNode, isStep: (node: AnyNode) => boolean): (name: string) => boolean {
  const rest: AnyNode[] = [];
  const visit = (node: AnyNode): void => {
    if (isStep(node)) return;
    if (node.type === 'Identifier') rest.push(node);
    visitReadable(node, visit);
  };
  visit(body);
  return (name) => !rest.some((node) => node.type === 'Identifier' && node.name === name);
}
