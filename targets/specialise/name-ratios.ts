import type { AnyNode, Expression, Program } from 'acorn';
import { generate } from 'astring';
import { constantValue } from './fold.ts';
import {
  assign,
  type FunctionNode,
  identifier,
  isFunction,
  mapChildren,
  withBody,
} from './tree.ts';

/**
 * Works out each ratio of numbers once, at creation, where a function made then uses it: in a
 * variable of the function around. For engines that divide anew each time they come by, and reach
 * such a variable quickly.
 */
export function nameRatios(program: Program): Program {
  let count = 0;
  /** @param made ratios of the function around, by what they look like; undefined = none yet */
  const visit = (node: AnyNode, made: Map<string, Named> | undefined): AnyNode => {
    if (isFunction(node)) return visitFunction(node);
    const value = node.type === 'BinaryExpression' ? constantValue(node) : undefined;
    if (value !== undefined && made !== undefined) {
      const text = generate(node);
      const named = made.get(text) ?? { name: `ratio$${count++}`, value: node as Expression };
      made.set(text, named);
      return identifier(named.name);
    }
    if (node.type === 'MemberExpression' && !node.computed) {
      return { ...node, object: visit(node.object, made) } as AnyNode;
    }
    return mapChildren(node, (child) => visit(child, made));
  };
  const visitFunction = (node: FunctionNode): FunctionNode => {
    const own = new Map<string, Named>();
    const inner = node.body.body.map((one): AnyNode => {
      if (!isFunction(one)) return visit(one, undefined);
      const made = visitFunction(one);
      return withBody(
        made,
        made.names ?? [],
        made.body.body.map((part) => (isFunction(part) ? part : visit(part, own))),
      );
    });
    const ratios = [...own.values()];
    const functions = inner.filter(isFunction);
    const rest = inner.filter((one) => !isFunction(one));
    const steps = ratios.map(({ name, value }) => assign(name, value));
    const names = [...(node.names ?? []), ...ratios.map(({ name }) => name)];
    return withBody(node, names, [...functions, ...steps, ...rest]);
  };
  return visit(program, undefined) as Program;
}

interface Named {
  name: string;
  value: Expression;
}
