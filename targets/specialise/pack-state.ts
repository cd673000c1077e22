import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { constantValue, knownValue } from './fold.ts';
import {
  assign,
  block,
  elementOf,
  type FunctionNode,
  identifier,
  isFunction,
  literal,
  mapChildren,
  withBody,
} from './tree.ts';
import { assignedBy, collectNames, isStraight, type Name } from './uses.ts';
import { weight } from './weight.ts';

/**
 * Puts what lives on from call to call into one array: Duktape takes a third of the time for an
 * element of an array at hand that it takes for a variable of a function around, and as a list of
 * numbers the first values are shorter. The names that the busiest inner function shares with the
 * one that makes it become elements; the most used ones get the shortest numbers.
 *
 * @param places uses in the text, each longer by a few characters, that one use of a name in each
 *   call of the busiest function may cost
 */
export function packState(program: Program, places: number): Program {
  const packs = new Map<FunctionNode, Pack>();
  const names = [...collectNames(program).values()];
  for (const owner of new Set(names.map((name) => name.owner))) {
    if (owner === undefined) continue;
    const pack = packOf(
      owner,
      names.filter((name) => name.owner === owner && isState(name)),
      `state$${packs.size}`,
      places,
    );
    if (pack !== undefined) packs.set(owner, pack);
  }
  return rewrite(program, packs, [], undefined) as Program;
}

/** The state of a function that makes others. */
interface Pack {
  /** Name of the array. */
  array: string;
  index: ReadonlyMap<string, number>;
  first: readonly Expression[];
  /** Statements at creation whose value is in `first`. */
  gone: ReadonlySet<AnyNode>;
  /** How many times a function reaches for an element. */
  reached: ReadonlyMap<FunctionNode, number>;
}

/** Fewer are not worth an array. */
const LEAST = 8;

function isState({ kind, owner, uses }: Name): boolean {
  return kind === 'variable' && uses.some(({ within }) => within !== owner);
}

function packOf(
  owner: FunctionNode,
  states: readonly Name[],
  array: string,
  places: number,
): Pack | undefined {
  const busy = countWithin(states, owner);
  const [busiest] = [...busy].toSorted((a, b) => b[1] - a[1]);
  if (busiest === undefined || busiest[1] < LEAST) return undefined;
  const packed = states
    .filter(({ uses }) => {
      const own = weight(uses.filter(({ within }) => within === busiest[0]));
      return own > 0 && own >= (uses.length - 1) / places;
    })
    .toSorted((a, b) => b.uses.length - a.uses.length);
  const gone = new Set<AnyNode>();
  const first = packed.map((name) => {
    const [creation, value] = firstOf(name) ?? [];
    if (creation) gone.add(creation);
    return value ?? literal(0);
  });
  const index = new Map(packed.map(({ name }, i) => [name, i]));
  return { array, index, first, gone, reached: countWithin(packed, owner) };
}

/** How many uses of the names stand in each function but their owner. */
function countWithin(names: readonly Name[], owner: FunctionNode): Map<FunctionNode, number> {
  const counts = new Map<FunctionNode, number>();
  for (const { within } of names.flatMap(({ uses }) => uses)) {
    if (within === undefined || within === owner) continue;
    counts.set(within, (counts.get(within) ?? 0) + 1);
  }
  return counts;
}

/** The statement at creation that gives a name its first value, and that value, if it is known. */
function firstOf({ uses, owner }: Name): [AnyNode, Expression] | undefined {
  // Functions, which stand before what is done at creation, are called after it.
  const write = uses.find(({ within }) => within === owner);
  if (write?.kind !== 'write' || !isStraight(write)) return undefined;
  const value = assignedBy(write);
  const statement = write.ancestors[write.ancestors.length - 2];
  if (value === undefined || statement === undefined) return undefined;
  return isKnown(value) ? [statement, value] : undefined;
}

function isKnown(node: AnyNode): node is Expression {
  if (node.type === 'ArrayExpression') return node.elements.every((one) => one && isKnown(one));
  return knownValue(node) !== undefined || constantValue(node) !== undefined;
}

/** @param own name by which the function at hand knows the array, and the elements */
function rewrite(
  node: AnyNode,
  packs: ReadonlyMap<FunctionNode, Pack>,
  around: readonly Pack[],
  own: ReadonlyMap<Pack, string> | undefined,
): AnyNode {
  if (isFunction(node)) return rewriteFunction(node, packs, around);
  if (node.type === 'Identifier') {
    const pack = around.find(({ index }) => index.has(node.name));
    return pack === undefined ? node : element(own?.get(pack) ?? pack.array, pack, node.name);
  }
  if (around.some(({ gone }) => gone.has(node))) return block([]);
  const visit = (child: AnyNode) => rewrite(child, packs, around, own);
  if (node.type === 'MemberExpression' && !node.computed) {
    return { ...node, object: visit(node.object) } as AnyNode;
  }
  if (node.type === 'Property') return { ...node, value: visit(node.value) } as AnyNode;
  const copy = mapChildren(node, visit);
  if (copy.type !== 'BlockStatement') return copy;
  return { ...copy, body: copy.body.filter((one) => !isNothing(one)) };
}

function isNothing(statement: Statement): boolean {
  return statement.type === 'BlockStatement' && statement.body.length === 0;
}

function rewriteFunction(
  node: FunctionNode,
  packs: ReadonlyMap<FunctionNode, Pack>,
  around: readonly Pack[],
): AnyNode {
  const pack = packs.get(node);
  const inner = pack === undefined ? around : [...around, pack];
  const reached = around.filter((one) => (one.reached.get(node) ?? 0) > 1);
  // The array is of no module: what stands around it tells whose code it is; see `moduleOf`.
  const mark = node.id?.name.replaceAll('_', '$');
  const own = new Map(reached.map((one) => [one, `${one.array}$of$${mark}`]));
  const body = rewrite(node.body, packs, inner, own) as FunctionNode['body'];
  const functions = body.body.filter(isFunction);
  const rest = body.body.filter((one) => !isFunction(one));
  const fetched = [...own].map(([one, name]) => assign(name, identifier(one.array)));
  const made = pack === undefined ? [] : [assign(pack.array, listOf(pack.first))];
  const left = (node.names ?? []).filter((name) => !pack?.index.has(name));
  const names = [...left, ...own.values(), ...(pack === undefined ? [] : [pack.array])];
  return withBody(node, names, [...functions, ...made, ...fetched, ...rest]);
}

function listOf(elements: readonly Expression[]): Expression {
  return { type: 'ArrayExpression', elements: [...elements], start: 0, end: 0 };
}

function element(array: string, { index }: Pack, name: string): Expression {
  return elementOf(array, literal(index.get(name)!));
}
