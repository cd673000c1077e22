import type {
  AnonymousFunctionDeclaration,
  AnyNode,
  FunctionDeclaration,
  FunctionExpression,
  Identifier,
  Program,
} from 'acorn';
import { fullAncestor } from 'acorn-walk';

/** A piece of an ES5 script that has names of its own: the script or a function. */
export type Owner =
  | Program
  | FunctionDeclaration
  | AnonymousFunctionDeclaration
  | FunctionExpression;

/** A use of a name, and where it was declared. */
export interface Reference {
  node: Identifier;
  /** Innermost script or function around the use. */
  user: Owner;
  /** Where the name was declared; undefined = nowhere in this script. */
  owner: Owner | undefined;
  /** The nodes around the use, outermost first, the use itself last. */
  ancestors: AnyNode[];
}

/** Every use of a name in an ES5 script, with ES5's function scopes and catch clauses. */
export function references(program: Program): Reference[] {
  const declared = declarations(program);
  const found: Reference[] = [];
  fullAncestor(program, (node, _state, ancestors, type) => {
    if (node.type !== 'Identifier') return;
    // As a pattern: a declared name, a parameter or the left side of an assignment.
    const around = ancestors[ancestors.length - 2];
    if (type === 'VariablePattern' && around?.type !== 'AssignmentExpression') return;
    const owners = ancestors.filter(isOwner);
    const user = owners[owners.length - 1] ?? program;
    const caught = ancestors.some(
      (one) => one.type === 'CatchClause' && (one.param as Identifier).name === node.name,
    );
    const owner = caught
      ? user
      : owners.reverse().find((one) => declared.get(one)?.has(node.name) === true);
    found.push({ node, user, owner, ancestors: [...ancestors] });
  });
  return found;
}

/** true for the script itself and for every function. */
export function isOwner(node: AnyNode): node is Owner {
  return (
    node.type === 'Program' ||
    node.type === 'FunctionDeclaration' ||
    node.type === 'FunctionExpression'
  );
}

/** The names each script or function declares: parameters, variables, functions. */
function declarations(program: Program): Map<Owner, Set<string>> {
  const declared = new Map<Owner, Set<string>>();
  const add = (owner: Owner, name: string) => {
    declared.set(owner, (declared.get(owner) ?? new Set()).add(name));
  };
  fullAncestor(program, (node, _state, ancestors) => {
    const around = () => ancestors.slice(0, -1).findLast(isOwner) ?? program;
    if (node.type === 'VariableDeclarator') add(around(), (node.id as Identifier).name);
    if (node.type !== 'FunctionDeclaration' && node.type !== 'FunctionExpression') return;
    if (node.id) add(node.type === 'FunctionDeclaration' ? around() : node, node.id.name);
    for (const parameter of node.params) add(node, (parameter as Identifier).name);
  });
  return declared;
}
