import type { AnyNode, Expression, Program } from 'acorn';
import { isPure } from './is-pure.ts';
import { identifier, isFunction, mapChildren, mapReadable, some } from './tree.ts';
import { collectNames, type Name, nodesAround, readsOf } from './uses.ts';

/**
 * Puts what a function returns in the place where alone it is called, wherever in an expression
 * that is, if the function does nothing but work out a value.
 */
export function inlineExpressions(program: Program): Program {
  const names = collectNames(program);
  const values = new Map<AnyNode, Expression>();
  const moved: Name[] = [];
  for (const name of names.values()) {
    const [use, another] = name.uses;
    if (use === undefined || another !== undefined || use.within === name.declaration) continue;
    const call = use.ancestors[use.ancestors.length - 1]!;
    const value = valueAt(call, name, names);
    if (value === undefined) continue;
    values.set(call, value);
    moved.push(name);
  }
  if (moved.length === 0) return program;
  const touched = nodesAround(moved.flatMap(({ uses }) => uses));
  const visit = (node: AnyNode): AnyNode =>
    touched.has(node) ? (values.get(node) ?? mapChildren(node, visit)) : node;
  return visit(program) as Program;
}

/** What stands for the call of a function: what it returns, with what the call gives it. */
function valueAt(
  call: AnyNode,
  { declaration, uses }: Name,
  names: ReadonlyMap<string, Name>,
): Expression | undefined {
  const returned = declaration && returnedBy(declaration.body.body, names);
  if (returned === undefined || call.type !== 'CallExpression') return undefined;
  if (call.callee !== uses[0]!.node || !call.arguments.every(isPure)) return undefined;
  const given = new Map<string, AnyNode>();
  for (const [i, param] of declaration!.params.entries()) {
    const argument = call.arguments[i];
    if (param.type !== 'Identifier' || argument === undefined) return undefined;
    const isShort = argument.type === 'Identifier' || argument.type === 'Literal';
    if (!isShort && readsOf(names.get(param.name)!).length > 1) return undefined;
    given.set(param.name, argument);
  }
  const put = (node: AnyNode): AnyNode =>
    node.type === 'Identifier' ? (given.get(node.name) ?? node) : mapReadable(node, put);
  return put(returned) as Expression;
}

/** What a function returns that does nothing else. */
function returnedBy(
  body: readonly AnyNode[],
  names: ReadonlyMap<string, Name>,
): Expression | undefined {
  const [only, another] = body;
  if (only?.type !== 'ReturnStatement' || !only.argument || another !== undefined) return undefined;
  const { argument } = only;
  // A list or a record is made anew each time.
  const makes = some(argument, ({ type }) => /^(Array|Object|Function)Expression$/.test(type));
  return !makes && isPure(withoutCalls(argument, names)) ? argument : undefined;
}

/** The expression with a name in place of each call that does nothing but work out a value. */
function withoutCalls(node: AnyNode, names: ReadonlyMap<string, Name>): AnyNode {
  if (node.type !== 'CallExpression' || node.callee.type !== 'Identifier') {
    return isFunction(node) ? node : mapReadable(node, (child) => withoutCalls(child, names));
  }
  const called = names.get(node.callee.name)?.declaration;
  if (called === undefined || returnedBy(called.body.body, names) === undefined) return node;
  const given = node.arguments.map((one) => withoutCalls(one, names));
  return given.every(isPure) ? identifier(node.callee.name) : node;
}
