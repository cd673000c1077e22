import type { AnyNode } from 'acorn';
import { childrenOf, type FunctionNode, isFunction, some } from './tree.ts';

/** Names of a function that are needed at the same time as another one. */
export type Interference = ReadonlyMap<string, ReadonlySet<string>>;

/**
 * Finds which names of a function cannot share a variable: one is given a value while that of the
 * other is still to be read. A name that is given the very value of another does not come between.
 *
 * @param own names of a function without functions inside
 */
export function interferenceIn(node: FunctionNode, own: ReadonlySet<string>): Interference {
  const clashes = new Map<string, Set<string>>();
  for (const name of own) clashes.set(name, new Set());
  const given = (name: string, live: Live, copied?: string) => {
    for (const other of live) {
      if (other === name || other === copied) continue;
      clashes.get(name)!.add(other);
      clashes.get(other)!.add(name);
    }
  };
  const first = before(node.body, NOTHING, { own, given, done: () => {}, ends: [] });
  const params = node.params.flatMap((one) => (one.type === 'Identifier' ? [one.name] : []));
  // All of them come with the call.
  for (const name of [...params, ...first]) given(name, new Set([...params, ...first]));
  return clashes;
}

/**
 * For each statement of a function without functions inside, the names whose values are still to be
 * read after it.
 */
export function liveAfter(node: FunctionNode, own: ReadonlySet<string>): Map<AnyNode, Live> {
  const all = new Map<AnyNode, Live>();
  // A loop is gone through until nothing more comes: what is told last holds.
  const done = (one: AnyNode, live: Live) => all.set(one, live);
  before(node.body, NOTHING, { own, given: () => {}, done, ends: [] });
  return all;
}

/** true if a function has no way on that these do not know, and no function inside. */
export function isSimple(owner: FunctionNode): boolean {
  return !some(owner.body, (node) => isFunction(node) || OTHER_WAYS.has(node.type));
}

const OTHER_WAYS: ReadonlySet<string> = new Set(
  ['Try', 'While', 'DoWhile', 'ForIn', 'Switch', 'Labeled', 'Throw'].map(
    (way) => `${way}Statement`,
  ),
);

/** Names whose values are still to be read. */
export type Live = ReadonlySet<string>;
const NOTHING: Live = new Set();

interface Walk {
  own: ReadonlySet<string>;
  /** Told of each name that is given a value, with what is live after it. */
  given(name: string, live: Live, copied?: string): void;
  /** Told of each statement, with what is live after it. */
  done(node: AnyNode, live: Live): void;
  /** Of each loop around, the innermost last: what is live after it and before its next round. */
  ends: readonly { after: Live; next: Live }[];
}

/** What is live before a node that is run, from what is live after it. */
function before(node: AnyNode | null | undefined, after: Live, walk: Walk): Live {
  if (node?.type.endsWith('Statement')) walk.done(node, after);
  switch (node?.type) {
    case undefined:
    case 'Literal':
      return after;
    case 'Identifier':
      return walk.own.has(node.name) ? withName(after, node.name) : after;
    case 'MemberExpression':
      return before(node.object, node.computed ? before(node.property, after, walk) : after, walk);
    case 'Property':
      return before(node.value, after, walk);
    case 'AssignmentExpression':
    case 'UpdateExpression':
      return beforeWrite(node, after, walk);
    case 'IfStatement':
    case 'ConditionalExpression': {
      const then = before(node.consequent, after, walk);
      return before(node.test, union(then, before(node.alternate, after, walk)), walk);
    }
    case 'LogicalExpression':
      return before(node.left, union(after, before(node.right, after, walk)), walk);
    case 'ReturnStatement':
      return before(node.argument, NOTHING, walk);
    case 'ContinueStatement':
      return walk.ends[walk.ends.length - 1]!.next;
    case 'BreakStatement':
      return walk.ends[walk.ends.length - 1]!.after;
    case 'ForStatement':
      return before(node.init, beforeRounds(node, after, walk), walk);
    default:
      return childrenOf(node!).reduceRight((live, child) => before(child, live, walk), after);
  }
}

function beforeWrite(
  node: Extract<AnyNode, { type: 'AssignmentExpression' | 'UpdateExpression' }>,
  after: Live,
  walk: Walk,
): Live {
  const isUpdate = node.type === 'UpdateExpression';
  const target = isUpdate ? node.argument : node.left;
  const right = isUpdate ? null : node.right;
  const isPlain = !isUpdate && node.operator === '=';
  if (target.type !== 'Identifier') return before(target, before(right, after, walk), walk);
  if (!walk.own.has(target.name)) return before(right, after, walk);
  walk.given(target.name, after, isPlain && right?.type === 'Identifier' ? right.name : undefined);
  const rest = new Set(after);
  rest.delete(target.name);
  const live = before(right, rest, walk);
  return isPlain ? live : withName(live, target.name);
}

/** What is live before the test of a loop: round by round, until nothing more comes. */
function beforeRounds(
  loop: Extract<AnyNode, { type: 'ForStatement' }>,
  after: Live,
  walk: Walk,
): Live {
  let head = after;
  for (;;) {
    const next = before(loop.update, head, walk);
    const inner = { ...walk, ends: [...walk.ends, { after, next }] };
    const now = union(head, before(loop.test, union(after, before(loop.body, next, inner)), walk));
    if (now.size === head.size) return now;
    head = now;
  }
}

function withName(live: Live, name: string): Live {
  return live.has(name) ? live : new Set(live).add(name);
}

function union(a: Live, b: Live): Live {
  if (a === b) return a;
  const all = new Set(a);
  for (const name of b) all.add(name);
  return all.size === a.size ? a : all;
}
