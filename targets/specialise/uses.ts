import type { AnyNode, Identifier, Program } from 'acorn';
import { type FunctionNode, isFunction, visitChildren } from './tree.ts';

/** A node with those around it. */
interface Place {
  node: AnyNode;
  outer: Place | undefined;
}

/** A place where a name is read or written. */
export class Use {
  /** As a list, once it is asked for: of thousands of uses that of few ever is. */
  private listed: readonly AnyNode[] | undefined;

  constructor(
    readonly node: Identifier,
    /** An update or a compound assignment is two uses. */
    readonly kind: 'read' | 'write',
    /** Where it stands in the order in which a straight run through the script comes by. */
    readonly at: number,
    /** The function around it; undefined = the script itself. */
    readonly within: FunctionNode | undefined,
    /** The node right around it. */
    readonly place: Place,
  ) {}

  /** The nodes around it, outermost first, without itself. */
  get ancestors(): readonly AnyNode[] {
    this.listed ??= nodesOf(this.place).reverse();
    return this.listed;
  }
}

/** The nodes around, as far as one that is no longer among them, from the innermost outwards. */
function nodesOf(place: Place, end?: AnyNode): AnyNode[] {
  const nodes: AnyNode[] = [];
  for (let one: Place | undefined = place; one && one.node !== end; one = one.outer) {
    nodes.push(one.node);
  }
  return nodes;
}

/** A name and all its uses, in order. */
export interface Name {
  name: string;
  kind: 'parameter' | 'variable' | 'function';
  /** The function that declares it; undefined = the script itself. */
  owner: FunctionNode | undefined;
  /** The functions around its declaration, outermost first; the last is the owner. */
  around: readonly FunctionNode[];
  /** Its declaration, if it is a function, and the node right around that. */
  declaration?: FunctionNode;
  place?: Place;
  uses: Use[];
}

/** What was collected: a pass that changes nothing leaves the script of the one before it. */
const collected = new WeakMap<Program, ReadonlyMap<string, Name>>();

/** All names of a script after `renameApart` and `spreadVariables`, with their uses. */
export function collectNames(program: Program): ReadonlyMap<string, Name> {
  const known = collected.get(program);
  if (known !== undefined) return known;
  const names = collect(program);
  collected.set(program, names);
  return names;
}

function collect(program: Program): Map<string, Name> {
  const names = new Map<string, Name>();
  /** Uses may come before their declaration. */
  const uses = new Map<string, Use[]>();
  let at = 0;
  let place: Place = { node: program, outer: undefined };
  let functions: readonly FunctionNode[] = [];
  const use: Visit['use'] = (node, kind) => {
    const one = new Use(node, kind, at++, functions[functions.length - 1], place);
    const known = uses.get(node.name);
    if (known === undefined) uses.set(node.name, [one]);
    else known.push(one);
  };
  const inside: Visit['inside'] = (node) => {
    if (!node || node.type === 'Literal') return;
    if (node.type === 'Identifier') {
      use(node, 'read');
      return;
    }
    const outer = place;
    place = { node, outer };
    if (isFunction(node)) {
      const outside = functions;
      functions = [...outside, node];
      const name = declareNames(node, outside, functions, names);
      if (name !== undefined) name.place = outer;
      inside(node.body);
      functions = outside;
    } else visitParts(node, visit);
    place = outer;
  };
  const visit: Visit = { inside, use };
  visitParts(program, visit);
  for (const name of names.values()) name.uses = uses.get(name.name) ?? [];
  return names;
}

/** What is done with the parts of a node. */
interface Visit {
  inside(node: AnyNode | null | undefined): void;
  use(node: Identifier, kind: Use['kind']): void;
}

/** Comes by what a node is made of, in the order in which it is evaluated. */
function visitParts(node: AnyNode, { inside, use }: Visit): void {
  switch (node.type) {
    case 'MemberExpression':
      inside(node.object);
      if (node.computed) inside(node.property);
      return;
    case 'Property':
      inside(node.value);
      return;
    case 'UpdateExpression':
      inside(node.argument);
      if (node.argument.type === 'Identifier') use(node.argument, 'write');
      return;
    case 'AssignmentExpression': {
      const { left, right, operator } = node;
      const isName = left.type === 'Identifier';
      if (!isName || operator !== '=') inside(left);
      inside(right);
      if (isName) use(left, 'write');
      return;
    }
    case 'VariableDeclarator':
      inside(node.init);
      return;
    case 'ForStatement':
      inside(node.init);
      inside(node.test);
      inside(node.body);
      inside(node.update);
      return;
    case 'CatchClause':
      inside(node.body);
      return;
    default:
      visitChildren(node, inside);
  }
}

/**
 * The name of a function, and the names it declares itself.
 *
 * @returns the former, if it is declared
 */
function declareNames(
  node: FunctionNode,
  outside: readonly FunctionNode[],
  inside: readonly FunctionNode[],
  names: Map<string, Name>,
): Name | undefined {
  const declare = (name: string, kind: Name['kind'], around: readonly FunctionNode[]): Name => {
    const declared = { name, kind, owner: around[around.length - 1], around, uses: [] };
    names.set(name, declared);
    return declared;
  };
  let own: Name | undefined;
  if (node.type === 'FunctionDeclaration' && node.id) {
    own = declare(node.id.name, 'function', outside);
    own.declaration = node;
  }
  for (const param of node.params) {
    if (param.type === 'Identifier') declare(param.name, 'parameter', inside);
  }
  for (const name of node.names ?? []) declare(name, 'variable', inside);
  return own;
}

/** The nodes around names: where they are declared, and used. */
export function nodesAroundNames(names: readonly Name[]): Set<AnyNode> {
  return nodesAround(names.flatMap((name) => [name, ...name.uses]));
}

/** The nodes around uses and declarations, which are all that changes with them. */
export function nodesAround(uses: Iterable<{ place?: Place }>): Set<AnyNode> {
  const seen = new Set<Place>();
  const nodes = new Set<AnyNode>();
  for (const { place } of uses) {
    for (let one: Place | undefined = place; one && !seen.has(one); one = one.outer) {
      seen.add(one);
      nodes.add(one.node);
    }
  }
  return nodes;
}

export function isLoop(node: AnyNode): boolean {
  const { type } = node;
  return type === 'ForStatement' || type === 'WhileStatement' || type === 'DoWhileStatement';
}

export function readsOf({ uses }: Name): Use[] {
  return uses.filter(({ kind }) => kind === 'read');
}

export function writesOf({ uses }: Name): Use[] {
  return uses.filter(({ kind }) => kind === 'write');
}

/** What the write assigns, if it is the statement or expression `name = value`. */
export function assignedBy({ node, place }: Use): AnyNode | undefined {
  const around = place.node;
  return around.type === 'AssignmentExpression' && around.operator === '=' && around.left === node
    ? around.right
    : undefined;
}

/** true for the target of an assignment that is a statement of its own. */
export function isOwnStatement({ node, place }: Use): boolean {
  const set = place.node;
  return (
    place.outer?.node.type === 'ExpressionStatement' &&
    set.type === 'AssignmentExpression' &&
    set.left === node
  );
}

/** true if the use may run more than once, or not at all, in one run of its function. */
export function isInLoop(use: Use): boolean {
  return nodesWithin(use).some(isLoop);
}

/** The loops of its own function that the use stands in. */
export function loopsAround(use: Use): AnyNode[] {
  return nodesWithin(use).filter(isLoop).reverse();
}

/** true if the use is run whenever its function is, and once. */
export function isStraight(use: Use): boolean {
  return nodesWithin(use).every(
    ({ type }) =>
      type === 'BlockStatement' ||
      type === 'ExpressionStatement' ||
      type === 'AssignmentExpression',
  );
}

/** The nodes around a use, inside its own function, from the innermost outwards. */
function nodesWithin({ place, within }: Use): AnyNode[] {
  return nodesOf(place, within);
}
