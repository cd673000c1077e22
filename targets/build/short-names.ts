import { type AnyNode, type Identifier, parse } from 'acorn';
import { visitChildren, visitReadable } from '../specialise/tree.ts';

/**
 * Gives the names of an ES5 script others, those that come most often the shortest. Two that are
 * declared in different functions may have the same one, unless a function sees both and uses the
 * outer one. What the script itself declares outside of all functions stays, and what it does not
 * declare.
 */
export function shortNames(code: string): string {
  const bindings = bindingsIn(code);
  const own = bindings.filter(({ scope }) => scope?.outer !== undefined);
  const taken = new Set(RESERVED);
  for (const binding of bindings) if (!own.includes(binding)) taken.add(binding.name);
  const uses = (slot: readonly Binding[]) => slot.reduce((sum, { nodes }) => sum + nodes.length, 0);
  const slots = slotsOf(own).sort((a, b) => uses(b) - uses(a));
  const names = namesBut(taken);
  const places: [Identifier, string][] = [];
  for (const slot of slots) {
    const name = names.next().value!;
    for (const { nodes } of slot) for (const node of nodes) places.push([node, name]);
  }
  places.sort(([a], [b]) => a.start - b.start);
  let short = '';
  let copied = 0;
  for (const [{ start, end }, name] of places) {
    short += code.slice(copied, start) + name;
    copied = end;
  }
  return short + code.slice(copied);
}

/** What declares names: the script, a function, or a `catch`. */
interface Scope {
  outer: Scope | undefined;
  names: Map<string, Binding>;
  /** The function around a `catch`, where its name counts as declared; else itself. */
  home: Scope;
}

/** A name and where it stands. */
interface Binding {
  name: string;
  /** The function that declares it; undefined = nothing in this script. */
  scope: Scope | undefined;
  nodes: Identifier[];
  /** The functions inside its own that use it, and those around them. */
  seenIn: Set<Scope>;
}

function bindingsIn(code: string): Binding[] {
  const all: Binding[] = [];
  const unknown = new Map<string, Binding>();
  const scopes = new Map<AnyNode, Scope>();
  const declare = (name: string, scope: Scope): void => {
    if (scope.names.has(name)) return;
    const binding = { name, scope: scope.home, nodes: [], seenIn: new Set<Scope>() };
    scope.names.set(name, binding);
    all.push(binding);
  };
  const collect = (node: AnyNode, scope: Scope): void => {
    const inner = innerScope(node, scope);
    if (inner !== scope) scopes.set(node, inner);
    for (const [name, isOutside] of declaredBy(node)) {
      declare(name, isOutside ? scope.home : inner);
    }
    visitChildren(node, (child) => {
      collect(child, inner);
    });
  };
  const use = (node: Identifier, from: Scope): void => {
    let scope: Scope | undefined = from;
    while (scope && !scope.names.has(node.name)) scope = scope.outer;
    const known = scope ? scope.names.get(node.name) : unknown.get(node.name);
    const binding = known ?? { name: node.name, scope: undefined, nodes: [], seenIn: new Set() };
    if (known === undefined) {
      unknown.set(node.name, binding);
      all.push(binding);
    }
    binding.nodes.push(node);
    for (let one: Scope | undefined = from; one && one !== scope; one = one.outer) {
      binding.seenIn.add(one.home);
    }
  };
  const walk = (node: AnyNode, scope: Scope): void => {
    if (node.type === 'Identifier') use(node, scope);
    const inner = scopes.get(node) ?? scope;
    visitReadable(node, (child) => {
      walk(child, child === (node as { id?: AnyNode }).id ? scope : inner);
    });
  };
  const program = parse(code, { ecmaVersion: 5 });
  const top = innerScope(program, undefined);
  collect(program, top);
  walk(program, top);
  return all;
}

function innerScope(node: AnyNode, outer: Scope | undefined): Scope {
  const isFunction = /^(Program|FunctionDeclaration|FunctionExpression)$/.test(node.type);
  if (outer !== undefined && !isFunction && node.type !== 'CatchClause') return outer;
  if (outer !== undefined && node.type === 'Program') return outer;
  const scope = { outer, names: new Map<string, Binding>() } as Scope;
  scope.home = node.type === 'CatchClause' ? outer!.home : scope;
  return scope;
}

/** The names that a node declares, and whether outside of itself. */
function declaredBy(node: AnyNode): [string, boolean][] {
  const names: [AnyNode | null | undefined, boolean][] = [];
  if (node.type === 'VariableDeclarator') names.push([node.id, true]);
  if (node.type === 'CatchClause') names.push([node.param, false]);
  if (node.type === 'FunctionDeclaration') names.push([node.id, true]);
  if (node.type === 'FunctionDeclaration' || node.type === 'FunctionExpression') {
    names.push(...node.params.map((one): [AnyNode, boolean] => [one, false]));
  }
  return names.flatMap(([one, isOutside]) =>
    one?.type === 'Identifier' ? [[one.name, isOutside]] : [],
  );
}

/** Puts names together that can be the same. */
function slotsOf(bindings: readonly Binding[]): Binding[][] {
  const slots: Binding[][] = [];
  for (const one of bindings.toSorted((a, b) => b.nodes.length - a.nodes.length)) {
    const slot = slots.find((others) => others.every((other) => areApart(one, other)));
    if (slot === undefined) slots.push([one]);
    else slot.push(one);
  }
  return slots;
}

function areApart(a: Binding, b: Binding): boolean {
  return a.scope !== b.scope && !a.seenIn.has(b.scope!) && !b.seenIn.has(a.scope!);
}

const FIRST = 'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_$';
const LATER = `${FIRST}0123456789`;
const RESERVED = ['do', 'for', 'if', 'in', 'int', 'let', 'new', 'try', 'var'];

/** All names of one and two letters, and more, the shortest first. */
function* namesBut(taken: ReadonlySet<string>): Generator<string, string> {
  for (let before = ['']; ; ) {
    const letters = before[0] === '' ? FIRST : LATER;
    const names = before.flatMap((name) => [...letters].map((letter) => name + letter));
    for (const name of names) if (!taken.has(name)) yield name;
    before = names;
  }
}
