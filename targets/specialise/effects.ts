import type { AnyNode } from 'acorn';
import { isPure } from './is-pure.ts';
import { childrenOf, type FunctionNode, some, targetOf } from './tree.ts';
import type { Name } from './uses.ts';

/** What running a function may change; undefined = anything. */
export interface Effects {
  names: ReadonlySet<string>;
  /** true = elements of lists, or fields of records, too. */
  elements: boolean;
}

/** What a function changes by itself and by what it calls, if all of that is known by name. */
export function effectsOf(
  node: FunctionNode,
  names: ReadonlyMap<string, Name>,
): Effects | undefined {
  const written = new Set<string>();
  const seen = new Set<FunctionNode>();
  let elements = false;
  let isKnown = true;
  const visit = (one: AnyNode): void => {
    const target = targetOf(one);
    if (target?.type === 'Identifier') written.add(target.name);
    else if (target !== undefined) elements = true;
    if (one.type === 'CallExpression') {
      const { callee } = one;
      const called = callee.type === 'Identifier' && names.get(callee.name)?.declaration;
      if (called) enter(called);
      else isKnown = false;
    }
    if (one.type === 'NewExpression') isKnown = false;
    for (const child of childrenOf(one)) visit(child);
  };
  const enter = (inner: FunctionNode): void => {
    if (seen.has(inner)) return;
    seen.add(inner);
    visit(inner.body);
  };
  enter(node);
  return isKnown ? { names: written, elements } : undefined;
}

/** true if an expression has the same value before and after that. */
export function isUntouched(node: AnyNode, effects: Effects | undefined): boolean {
  if (effects === undefined || !isPure(node)) return false;
  return !some(
    node,
    (one) =>
      (one.type === 'Identifier' && effects.names.has(one.name)) ||
      (one.type === 'MemberExpression' && effects.elements),
  );
}
