import type { AnyNode, Expression, FunctionDeclaration, Program } from 'acorn';
import { type ConditionalStep, conditionalStep } from './conditional-step.ts';
import { isPure, OUTLINED } from './is-pure.ts';
import { type LeafKind, leafKinds, namedLeaves } from './named-leaves.ts';
import { type ShapeMemory, shapeMemory } from './shape-memory.ts';
import { holeIndex, type Shape } from './shapes.ts';
import { textSize } from './text-size.ts';
import {
  assign,
  callOf,
  choice,
  type FunctionNode,
  functionReturning,
  identifier,
  isFunction,
  mapChildren,
  mapReadable,
  outermost,
  some,
  visitChildren,
  withBody,
} from './tree.ts';
import { collectNames, type Name } from './uses.ts';

/**
 * Makes a function of expressions of the same shape, such as magnitudes and checks of samples,
 * where the calls take less text. What differs is handed over, and so computed beforehand: only
 * what can always be computed, and has no effect.
 */
export function outline(program: Program): Program {
  let now = program;
  let look: Look | undefined;
  for (let count = 0; ; count++) {
    const names = collectNames(now);
    look = lookAt(names, look);
    const best = bestPlan(now, look);
    if (best === undefined) return now;
    now = apply(now, best, names, `${OUTLINED}${count}`);
  }
}

/** What is known of the names, and what was found by it. */
interface Look {
  kinds: Map<string, LeafKind>;
  shapes: ShapeMemory;
  /** What nodes stand for; see `standsFor`. */
  values: Map<AnyNode, AnyNode>;
  isLocal(name: string): boolean;
}

/** The look before goes on for as long as all names there were are what they have been. */
function lookAt(names: ReadonlyMap<string, Name>, before: Look | undefined): Look {
  const kinds = leafKinds(names);
  if (before && [...before.kinds].every(([name, kind]) => kinds.get(name) === kind)) {
    for (const [name, kind] of kinds) before.kinds.set(name, kind);
    return before;
  }
  const leaves = namedLeaves(kinds);
  return {
    kinds,
    shapes: shapeMemory(leaves, MOST_HOLES),
    values: new Map(),
    isLocal: (name) => !leaves.isFree(name),
  };
}

/** An expression that may be replaced: itself, or an `if` that gives a name another value. */
interface Candidate {
  node: AnyNode;
  value: AnyNode;
  /** What it takes beside its value that a call does not. */
  around: number;
  /** Where it begins and ends in the order of all nodes. */
  from: number;
  to: number;
  /** The functions around it, outermost first. */
  functions: readonly FunctionNode[];
}

interface Plan {
  shape: Shape;
  calls: Map<AnyNode, readonly AnyNode[]>;
  saved: number;
}

/** Fewer characters than this are not worth a function, since the estimate is rough. */
const WORTH = 3;

/** The greatest saving of all shapes. */
function bestPlan(program: Program, look: Look): Plan | undefined {
  const groups = new Map<string, Candidate[]>();
  for (const one of candidatesIn(program, look)) {
    const kind = kindOf(one.value);
    groups.set(kind, [...(groups.get(kind) ?? []), one]);
  }
  let best: Plan | undefined;
  for (const group of groups.values()) {
    for (const shape of shapesIn(group, look)) {
      const plan = planFor(shape, group, look);
      if (plan.saved >= WORTH && plan.saved > (best?.saved ?? 0)) best = plan;
    }
  }
  return best;
}

function kindOf(node: AnyNode): string {
  const { operator = '' } = node as { operator?: string };
  return `${node.type} ${/[<>]/.test(operator) ? operator.replace('>', '<') : operator}`;
}

function candidatesIn(program: Program, { values }: Look): Candidate[] {
  const found: Candidate[] = [];
  let at = 0;
  const meantBy = (node: AnyNode): AnyNode | undefined => {
    const value = values.get(node) ?? standsFor(node);
    if (value !== undefined) values.set(node, value);
    return value;
  };
  const visit = (node: AnyNode, parent: AnyNode, functions: readonly FunctionNode[]): void => {
    const value = functions.length > 0 ? meantBy(node) : undefined;
    const one = value && { node, value, around: 0, from: at, to: at, functions };
    if (one !== undefined) {
      one.around = node === value ? bracketsOf(node, parent) : STEP;
      found.push(one);
    }
    at++;
    const inner = isFunction(node) ? [...functions, node] : functions;
    visitChildren(node, (child) => {
      visit(child, node, inner);
    });
    if (one !== undefined) one.to = at;
  };
  visit(program, program, []);
  return found;
}

/** `if()` and `;` beside `?` and `:x`. */
const STEP = 2;

/** Characters of the brackets around an expression. */
function bracketsOf(node: AnyNode, parent: AnyNode): number {
  if (parent.type !== 'BinaryExpression' && parent.type !== 'LogicalExpression') return 0;
  if (node.type === 'ConditionalExpression') return 2;
  if (parent.type === 'LogicalExpression') return 0;
  if (node.type === 'LogicalExpression') return 2;
  const isSum = node.type === 'BinaryExpression' && /^[-+]$/.test(node.operator);
  return isSum && /^[*/]$/.test(parent.operator) ? 2 : 0;
}

/** The expression that a candidate stands for; undefined if it is none. */
function standsFor(node: AnyNode): AnyNode | undefined {
  if (/^(Binary|Logical|Conditional)Expression$/.test(node.type)) {
    return isPure(node) && !isConstant(node) ? node : undefined;
  }
  const step = pureStep(node);
  return step && choice(step.test, step.value, identifier(step.name));
}

function isConstant(node: AnyNode): boolean {
  return !some(node, ({ type }) => type === 'Identifier');
}

/** An `if` that gives a name another value, of which nothing else comes. */
function pureStep(node: AnyNode): ConditionalStep | undefined {
  const step = conditionalStep(node);
  return step && isPure(step.test) && isPure(step.value) ? step : undefined;
}

function shapesIn(group: readonly Candidate[], { shapes, isLocal }: Look): Shape[] {
  const found: Shape[] = [];
  const seen = new Set<string>();
  const long = group.filter(({ value }) => sizeOf(value, isLocal) >= SHORTEST);
  for (let i = 0; i < long.length; i++) {
    for (let j = i + 1; j < long.length; j++) {
      const shape = shapes.shared(long[i]!.value, long[j]!.value);
      if (shape === undefined || seen.has(shape.text)) continue;
      seen.add(shape.text);
      found.push(shape);
    }
  }
  return found;
}

const SHORTEST = 6;
const MOST_HOLES = 5;

const sizes = new WeakMap<AnyNode, number>();

function sizeOf(node: AnyNode, isLocal: (name: string) => boolean): number {
  const known = sizes.get(node) ?? textSize(node, isLocal);
  sizes.set(node, known);
  return known;
}

/** What it saves to make a function of a shape, and what becomes calls of it. */
function planFor(shape: Shape, group: readonly Candidate[], look: Look): Plan {
  const long = callsOf(shape, group, look, CALL);
  // So many that the function gets a name of one letter.
  const many = long.calls.size >= MANY;
  const { calls, saved } = many ? callsOf(shape, group, look, CALL - 1) : long;
  const declared = DECLARED + 2 * shape.holes + sizeOf(shape.node, look.isLocal);
  return { shape, calls, saved: saved - declared };
}

/** The places that a call would take less text at, and how much less. */
function callsOf(
  shape: Shape,
  group: readonly Candidate[],
  { shapes, isLocal }: Look,
  call: number,
): Pick<Plan, 'calls' | 'saved'> {
  const calls: Plan['calls'] = new Map();
  let saved = 0;
  let end = -1;
  for (const { node, value, around, from, to } of group) {
    if (from < end) continue;
    const holes = shapes.match(shape, value);
    if (holes === undefined) continue;
    const given = holes.reduce((sum, hole) => sum + sizeOf(hole, isLocal) + 1, call);
    const gain = sizeOf(value, isLocal) + around - given;
    if (gain <= 0) continue;
    saved += gain;
    end = to;
    calls.set(node, holes);
  }
  return { calls, saved };
}

/** `function ff(){return }` but for what stands between, and `f(`, where `)` is the last comma. */
const DECLARED = 21;
const CALL = 3;
const MANY = 12;

function apply(
  program: Program,
  { shape, calls }: Plan,
  names: ReadonlyMap<string, Name>,
  name: string,
): Program {
  const owner = ownerOf(shape.node, names) ?? outermost(program);
  const made = functionOf(shape, name);
  const rewrite = (node: AnyNode): AnyNode => {
    const holes = calls.get(node);
    if (holes !== undefined) {
      const step = pureStep(node);
      const call = callOf(name, [...holes] as Expression[]);
      return step === undefined ? call : assign(step.name, call);
    }
    const copy = mapChildren(node, rewrite);
    if (node !== owner || !isFunction(copy)) return copy;
    return withBody(copy, copy.names ?? [], [made, ...copy.body.body]);
  };
  return rewrite(program) as Program;
}

/** The innermost function that declares a name in the shape. */
function ownerOf(node: AnyNode, names: ReadonlyMap<string, Name>): FunctionNode | undefined {
  let found: Name | undefined;
  const visit = (one: AnyNode): void => {
    const name = one.type === 'Identifier' ? names.get(one.name) : undefined;
    if (name !== undefined && name.around.length > (found?.around.length ?? 0)) found = name;
    visitChildren(one, visit);
  };
  visit(node);
  return found?.owner;
}

function functionOf({ node, holes }: Shape, name: string): FunctionDeclaration {
  const params = Array.from({ length: holes }, (_, i) => identifier(`${name}$${i}`));
  const fill = (one: AnyNode): AnyNode => {
    const index = one.type === 'Identifier' ? holeIndex(one.name) : undefined;
    return index === undefined ? mapReadable(one, fill) : params[index]!;
  };
  return functionReturning(name, params, fill(node) as Expression);
}
