import { type AnyNode, type Comment, type Program, parse } from 'acorn';
import { type FunctionNode, isFunction, mapChildren } from './tree.ts';

/** A script in which no name stands for two things. */
export interface Renamed {
  program: Program;
  /** The modules the script was bundled from; see `moduleOf`. */
  modules: readonly string[];
}

/**
 * Gives every parameter, variable and function of an ES5 script a name that no other one has, so
 * that code can move between functions: NAME$MODULE_NUMBER. Names made from it by adding to it
 * tell the module, too.
 *
 * @param code a script in which esbuild named each module in a comment before its code
 * @param globals names that stay
 */
export function renameApart(code: string, globals: readonly string[]): Renamed {
  const comments: Comment[] = [];
  const program = parse(code, { ecmaVersion: 5, onComment: comments });
  const starts = moduleStarts(comments);
  const placeOf = (at: number) => starts.findLastIndex(({ start }) => start <= at);
  let count = 0;
  type Scope = ReadonlyMap<string, string>;
  const declare = (scope: Map<string, string>, name: string, moduleAt: number): void => {
    scope.set(name, `${name}$${moduleAt}_${++count}`);
  };
  const fresh = (scope: Scope, names: Iterable<string>, moduleAt: number): Map<string, string> => {
    const inner = new Map(scope);
    for (const name of names) declare(inner, name, moduleAt);
    return inner;
  };
  const visit = (node: AnyNode, scope: Scope): AnyNode => {
    if (node.type === 'Identifier') return { ...node, name: scope.get(node.name) ?? node.name };
    if (node.type === 'MemberExpression' && !node.computed) {
      return { ...node, object: visit(node.object, scope) } as AnyNode;
    }
    if (node.type === 'Property') return { ...node, value: visit(node.value, scope) } as AnyNode;
    if (node.type === 'CatchClause') {
      const caught = node.param?.type === 'Identifier' ? [node.param.name] : [];
      const inner = fresh(scope, caught, placeOf(node.start));
      return mapChildren(node, (child) => visit(child, inner));
    }
    if (!isFunction(node)) return mapChildren(node, (child) => visit(child, scope));
    const place = placeOf(node.start);
    const own = ownNames(node);
    const inner = fresh(scope, own.names, place);
    // The function around the whole script holds the names of every module.
    for (const [name, at] of own.places) {
      const from = placeOf(at);
      if (from !== place) declare(inner, name, from);
    }
    const renamed = mapChildren(node, (child) => visit(child, inner));
    return node.type === 'FunctionDeclaration' && node.id
      ? ({ ...renamed, id: visit(node.id, scope) } as AnyNode)
      : renamed;
  };
  const kept = new Map(globals.map((name) => [name, name]));
  return { program: visit(program, kept) as Program, modules: starts.map(({ name }) => name) };
}

/** The module that a name of a renamed script comes from; undefined = a global or a field. */
export function moduleOf(name: string, modules: readonly string[]): string | undefined {
  const mark = /\$(\d+)_\d/.exec(name);
  return mark === null ? undefined : modules[Number(mark[1])];
}

/** Where each module's code starts. */
function moduleStarts(comments: readonly Comment[]): { name: string; start: number }[] {
  const starts = [{ name: 'wrapper', start: 0 }];
  for (const { type, value, start } of comments) {
    const text = value.trim();
    if (type !== 'Line') continue;
    if (text.startsWith('<define:')) starts.push({ name: 'constants', start });
    else if (/^\S+\.[jt]s$/.test(text)) starts.push({ name: text, start });
  }
  return starts;
}

/** Parameters, variables and functions declared in a function itself, and where. */
function ownNames(node: FunctionNode): { names: Set<string>; places: Map<string, number> } {
  const places = new Map<string, number>();
  const declare = (id: AnyNode | null) => {
    if (id?.type === 'Identifier' && !places.has(id.name)) places.set(id.name, id.start);
  };
  const look = (inside: AnyNode): AnyNode => {
    if (inside.type === 'VariableDeclarator') declare(inside.id);
    if (inside.type === 'FunctionDeclaration') declare(inside.id);
    return isFunction(inside) ? inside : mapChildren(inside, look);
  };
  for (const param of node.params) declare(param);
  mapChildren(node.body, look);
  return { names: new Set(places.keys()), places };
}
