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
  const use = (node: Identifier, kind: Use['kind'], ancestors: readonly AnyNode[]) => {
    const within = ancestors.findLast(isFunction);
    names.get(node.name)?.uses.push({ node, kind, at: at++, within, ancestors });
  };
  const visit = (node: AnyNode, around: readonly AnyNode[]): void => {
    const inner = [...around, node];
    if (node.type === 'Identifier') use(node, 'read', around);
    else if (node.type === 'MemberExpression' && !node.computed) visit(node.object, inner);
    else if (node.type === 'Property') visit(node.value, inner);
    else if (node.type === 'UpdateExpression' && node.argument.type === 'Identifier') {
      use(node.argument, 'read', inner);
      use(node.argument, 'write', inner);
    } else if (node.type === 'AssignmentExpression' && node.left.type === 'Identifier') {
      if (node.operator !== '=') use(node.left, 'read', inner);
      visit(node.right, inner);
      use(node.left, 'write', inner);
    } else if (isFunction(node)) visit(node.body, inner);
    else if (node.type === 'VariableDeclarator') {
      if (node.init) visit(node.init, inner);
    } else if (node.type === 'ForStatement') {
      for (const part of [node.init, node.test, node.body, node.update])
        if (part) visit(part, inner);
    } else if (node.type === 'CatchClause') visit(node.body, inner);
    else for (const child of childrenOf(node)) visit(child, inner);
  };
  visit(program, []);
  return names;
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
