import type { AnyNode, BinaryExpression, ConditionalExpression, Program } from 'acorn';
import { argumentsFor } from './arguments-for.ts';
import { knownValue } from './fold.ts';
import { BITS, computeRange, exactly, joinRanges, negative, type Range } from './range.ts';
import { isSame } from './shapes.ts';
import { type FunctionNode, isFunction, visitChildren } from './tree.ts';
import { assignedBy, collectNames, type Name, type Use, writesOf } from './uses.ts';

/** What expressions of a script can be. */
export interface Ranges {
  /** undefined = it may be no number. */
  of(node: AnyNode): Range | undefined;
}

/** `null` = nothing yet. */
type Found = Range | undefined | null;

/** Rounds after which a bound that still moves is taken for none. */
const PATIENT = 6;

/**
 * Finds out between which bounds numbers stay, and which are never NaN, whatever comes in. What is
 * given to a name or to any element of a list counts wherever it is read: nothing is read before it
 * is written, nor past the end of a list.
 */
export function rangesIn(program: Program): Ranges {
  const names = collectNames(program);
  const sources = sourcesOf(names);
  const found = new Map<string, Found>();
  const of = (node: AnyNode): Found => rangeOf(node, { found, names });
  for (const key of sources.keys()) found.set(key, null);
  for (let round = 0, changes = true; changes; round++) {
    changes = false;
    for (const [key, values] of sources) {
      const before = found.get(key);
      const now = values.reduce<Found>((all, one) => wider(all, one(of)), before);
      if (isSameRange(before, now)) continue;
      found.set(key, round > PATIENT ? widened(before, now) : now);
      changes = true;
    }
  }
  return { of: (node) => of(node) ?? undefined };
}

function wider(a: Found, b: Found): Found {
  if (a === null) return b;
  if (b === null || a === undefined) return a;
  return b === undefined ? b : joinRanges(a, b);
}

function isSameRange(a: Found, b: Found): boolean {
  if (!a || !b) return a === b;
  return a.least === b.least && a.most === b.most && a.nan === b.nan && a.whole === b.whole;
}

function widened(before: Found, now: Found): Found {
  if (!before || !now) return now;
  return {
    least: now.least < before.least ? -Infinity : now.least,
    most: now.most > before.most ? Infinity : now.most,
    nan: now.nan,
    whole: now.whole,
  };
}

/** What a name is given, as a question to those known so far. */
type Source = (of: (node: AnyNode) => Found) => Found;

/** All that is given to each name, to the elements of each list, and back by each function. */
function sourcesOf(names: ReadonlyMap<string, Name>): Map<string, Source[]> {
  const sources = new Map<string, Source[]>();
  for (const name of names.values()) {
    if (name.kind === 'function') {
      const returned = returnedBy(name.declaration!);
      if (returned !== undefined) sources.set(name.name, returned.map(asked));
      continue;
    }
    const given = name.kind === 'parameter' ? argumentsFor(name, names) : [];
    if (given === undefined) continue;
    sources.set(name.name, [
      ...given.map(({ argument }) => asked(argument)),
      ...writesOf(name).map(writtenBy),
    ]);
    const elements = name.kind === 'variable' ? elementsOf(name) : undefined;
    if (elements !== undefined) sources.set(elementKey(name.name), elements);
  }
  return sources;
}

function asked(node: AnyNode): Source {
  return (of) => of(node);
}

function elementKey(name: string): string {
  return `${name}[]`;
}

function writtenBy(use: Use): Source {
  const around = use.ancestors[use.ancestors.length - 1];
  const value = assignedBy(use);
  if (value !== undefined) return asked(value);
  if (around?.type === 'UpdateExpression') {
    const operator = around.operator === '++' ? '+' : '-';
    return (of) => computed(operator, of(use.node), exactly(1));
  }
  if (around?.type !== 'AssignmentExpression') return () => undefined;
  const { operator, right } = around;
  return (of) => computed(operator.slice(0, -1), of(use.node), of(right));
}

function computed(operator: string, a: Found, b: Found): Found {
  if (a === null || b === null) return null;
  // Whatever it is, a bit operator makes a number of it.
  const known = /^([|&^]|<<|>>>?)$/.test(operator) ? BITS : undefined;
  const [left, right] = [a ?? known, b ?? known];
  return left && right ? computeRange(operator, left, right) : undefined;
}

/** What is given to the elements of a list that stays in its name. */
function elementsOf(name: Name): Source[] | undefined {
  const [write, another] = writesOf(name);
  const list = write && assignedBy(write);
  if (another !== undefined || list?.type !== 'ArrayExpression') return undefined;
  const sources = list.elements.map((one): Source => (one ? asked(one) : () => undefined));
  for (const use of name.uses) {
    if (use === write) continue;
    const [around, element] = use.ancestors.slice(-2);
    if (element?.type !== 'MemberExpression' || element.object !== use.node || !element.computed) {
      return undefined;
    }
    if (around?.type === 'UpdateExpression') return undefined;
    if (around?.type !== 'AssignmentExpression' || around.left !== element) continue;
    const { operator, right } = around;
    sources.push(
      operator === '='
        ? asked(right)
        : (of) => computed(operator.slice(0, -1), of(element), of(right)),
    );
  }
  return sources;
}

/** What a function returns; undefined if it may come to its end. */
function returnedBy(node: FunctionNode): AnyNode[] | undefined {
  const last = node.body.body[node.body.body.length - 1];
  const returned: AnyNode[] = [];
  let isPlain = last?.type === 'ReturnStatement';
  const visit = (one: AnyNode): void => {
    if (isFunction(one)) return;
    if (one.type === 'ReturnStatement') {
      if (one.argument) returned.push(one.argument);
      else isPlain = false;
    }
    visitChildren(one, visit);
  };
  visit(node.body);
  return isPlain ? returned : undefined;
}

interface Known {
  found: ReadonlyMap<string, Found>;
  names: ReadonlyMap<string, Name>;
}

function rangeOf(node: AnyNode, known: Known): Found {
  const value = knownValue(node);
  if (typeof value === 'number') return exactly(value);
  const of = (one: AnyNode) => rangeOf(one, known);
  switch (node.type) {
    case 'Identifier':
      return known.names.get(node.name)?.kind === 'function' ? undefined : at(node.name, known);
    case 'CallExpression': {
      const { callee } = node;
      const isNamed =
        callee.type === 'Identifier' && known.names.get(callee.name)?.kind === 'function';
      return isNamed ? at(callee.name, known) : undefined;
    }
    case 'MemberExpression':
      return node.computed && node.object.type === 'Identifier'
        ? at(elementKey(node.object.name), known)
        : undefined;
    case 'UnaryExpression': {
      const argument = of(node.argument);
      return node.operator === '-' && argument ? negative(argument) : argument && undefined;
    }
    case 'AssignmentExpression':
      return node.operator === '=' ? of(node.right) : undefined;
    case 'BinaryExpression':
      return computed(node.operator, of(node.left), of(node.right));
    case 'LogicalExpression':
      return wider(of(node.left), of(node.right));
    case 'ConditionalExpression':
      return wider(underTest(node, true, of), underTest(node, false, of));
    default:
      return undefined;
  }
}

function at(key: string, { found }: Known): Found {
  return found.has(key) ? found.get(key) : undefined;
}

/** A branch, by what the test says of it: `x > 5 ? 5 : x` is no more than 5. */
function underTest(
  { test, consequent, alternate }: ConditionalExpression,
  holds: boolean,
  of: (node: AnyNode) => Found,
): Found {
  const branch = holds ? consequent : alternate;
  const range = of(branch);
  if (!range || test.type !== 'BinaryExpression') return range;
  const bound = boundOn(branch, test, of);
  if (bound === undefined) return range;
  const [isMost, { least, most }] = bound;
  // What is told where a test fails holds but for NaN, which stays.
  const nan = range.nan && !holds;
  const isBelow = isMost === holds;
  return isBelow
    ? { ...range, least: Math.min(range.least, most), most: Math.min(range.most, most), nan }
    : { ...range, least: Math.max(range.least, least), most: Math.max(range.most, least), nan };
}

/** Whether a comparison that holds bounds an expression from above, and by what. */
function boundOn(
  node: AnyNode,
  { left, operator, right }: BinaryExpression,
  of: (node: AnyNode) => Found,
): [isMost: boolean, by: Range] | undefined {
  if (!/^[<>]=?$/.test(operator)) return undefined;
  const isLeft = isSame(left, node);
  if (!isLeft && !isSame(right, node)) return undefined;
  const other = of(isLeft ? right : left);
  // A comparison with NaN fails, and then says nothing.
  return other && !other.nan ? [operator.startsWith('<') === isLeft, other] : undefined;
}
