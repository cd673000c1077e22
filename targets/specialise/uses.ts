import type { AnyNode, Identifier, Program } from 'acorn';
import { childrenOf, type FunctionNode, isFunction } from './tree.ts';

/** A place where a name is read or written. */
export interface Use {
  node: Identifier;
  /** An update or a compound assignment is two uses. */
  kind: 'read' | 'write';
  /** Where it stands in the order in which a straight run through the script comes by. */
  at: number;
  /** The function around it; undefined = the script itself. */
  within: FunctionNode | undefined;
  /** The nodes around it, outermost first, without itself. */
  ancestors: readonly AnyNode[];
}

/** A name and all its uses, in order. */
export interface Name {
  name: string;
  kind: 'parameter' | 'variable' | 'function';
  /** The function that declares it; undefined = the script itself. */
  owner: FunctionNode | undefined;
  /** The functions around its declaration, outermost first; the last is the owner. */
  around: readonly FunctionNode[];
  /** Its declaration, if it is a function. */
  declaration?: FunctionNode;
  uses: Use[];
}

/** All names of a script after `renameApart` and `spreadVariables`, with their uses. */
export function collectNames(program: Program): Map<string, Name> {
  const names = new Map<string, Name>();
  declareAll(program, [], names);
  let at = 0;
  const around: AnyNode[] = [];
  const use = (node: Identifier, kind: Use['kind']) => {
    const name = names.get(node.name);
    if (name === undefined) return;
    const within = around.findLast(isFunction);
    name.uses.push({ node, kind, at: at++, within, ancestors: [...around] });
  };
  const visit = (node: AnyNode): void => {
    if (node.type === 'Identifier') {
      use(node, 'read');
      return;
    }
    around.push(node);
    for (const part of partsOf(node)) {
      if (part.kind === 'inside') visit(part.node);
      else use(part.node, part.kind);
    }
    around.pop();
  };
  visit(program);
  return names;
}

type Part = { kind: 'inside'; node: AnyNode } | { kind: Use['kind']; node: Identifier };

/** What a node is made of, in the order in which it is evaluated. */
function partsOf(node: AnyNode): Part[] {
  const inside = (...nodes: (AnyNode | null | undefined)[]): Part[] =>
    nodes.flatMap((one) => (one ? [{ kind: 'inside', node: one }] : []));
  switch (node.type) {
    case 'MemberExpression':
      return node.computed ? inside(node.object, node.property) : inside(node.object);
    case 'Property':
      return inside(node.value);
    case 'UpdateExpression':
      if (node.argument.type !== 'Identifier') return inside(node.argument);
      return [
        { kind: 'read', node: node.argument },
        { kind: 'write', node: node.argument },
      ];
    case 'AssignmentExpression': {
      const { left, right, operator } = node;
      if (left.type !== 'Identifier') return inside(left, right);
      const before: Part[] = operator === '=' ? [] : [{ kind: 'read', node: left }];
      return [...before, ...inside(right), { kind: 'write', node: left }];
    }
    case 'VariableDeclarator':
      return inside(node.init);
    case 'ForStatement':
      return inside(node.init as AnyNode | null, node.test, node.body, node.update);
    case 'FunctionDeclaration':
    case 'FunctionExpression':
    case 'CatchClause':
      return inside(node.body);
    default:
      return inside(...childrenOf(node));
  }
}

function declareAll(
  node: AnyNode,
  around: readonly FunctionNode[],
  names: Map<string, Name>,
): void {
  const declare = (name: string, kind: Name['kind'], by: readonly FunctionNode[]): Name => {
    const declared = { name, kind, owner: by[by.length - 1], around: by, uses: [] };
    names.set(name, declared);
    return declared;
  };
  if (isFunction(node)) {
    if (node.type === 'FunctionDeclaration' && node.id) {
      declare(node.id.name, 'function', around).declaration = node;
    }
    const inner = [...around, node];
    for (const param of node.params) {
      if (param.type === 'Identifier') declare(param.name, 'parameter', inner);
    }
    for (const name of node.names ?? []) declare(name, 'variable', inner);
    for (const child of childrenOf(node.body)) declareAll(child, inner, names);
    return;
  }
  for (const child of childrenOf(node)) declareAll(child, around, names);
}

export function isLoop(node: AnyNode): boolean {
  return /^(For|While|DoWhile)Statement$/.test(node.type);
}

export function readsOf({ uses }: Name): Use[] {
  return uses.filter(({ kind }) => kind === 'read');
}

export function writesOf({ uses }: Name): Use[] {
  return uses.filter(({ kind }) => kind === 'write');
}

/** What the write assigns, if it is the statement or expression `name = value`. */
export function assignedBy(write: Use): AnyNode | undefined {
  const around = write.ancestors[write.ancestors.length - 1];
  return around?.type === 'AssignmentExpression' &&
    around.operator === '=' &&
    around.left === write.node
    ? around.right
    : undefined;
}

/** true if the use may run more than once, or not at all, in one run of its function. */
export function isInLoop(use: Use): boolean {
  return loopsAround(use).length > 0;
}

/** The loops of its own function that the use stands in. */
export function loopsAround({ ancestors, within }: Use): AnyNode[] {
  const from = within === undefined ? 0 : ancestors.lastIndexOf(within);
  return ancestors.slice(from).filter(isLoop);
}

/** true if the use is run whenever its function is, and once. */
export function isStraight({ ancestors, within }: Use): boolean {
  return ancestors
    .slice(within === undefined ? 0 : ancestors.lastIndexOf(within) + 1)
    .every(({ type }) => /^(Block|Expression)Statement$|^AssignmentExpression$/.test(type));
}
