import type { AnyNode } from 'acorn';
import type { Name } from './uses.ts';

/** What a call gives a parameter, and the nodes around the called name, outermost first. */
export interface Given {
  argument: AnyNode;
  ancestors: readonly AnyNode[];
}

/** What calls give a parameter; undefined if not all of them are known. */
export function argumentsFor(
  { name, owner }: Name,
  names: ReadonlyMap<string, Name>,
): Given[] | undefined {
  const called =
    owner?.type === 'FunctionDeclaration' ? names.get(owner.id?.name ?? '') : undefined;
  const at = owner?.params.findIndex((one) => one.type === 'Identifier' && one.name === name);
  if (called === undefined || at === undefined) return undefined;
  const given: Given[] = [];
  for (const { node, ancestors } of called.uses) {
    const call = ancestors[ancestors.length - 1];
    const argument = call?.type === 'CallExpression' && call.callee === node && call.arguments[at];
    if (!argument) return undefined;
    given.push({ argument, ancestors });
  }
  return given;
}
