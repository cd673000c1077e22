import type { AnyNode } from 'acorn';
import { isPure } from './is-pure.ts';
import { type FunctionNode, some, targetOf, visitChildren } from './tree.ts';
import type { Name } from './uses.ts';

/** What running a function may change; undefined = anything. */
export interface Effects {
  names: ReadonlySet<string>;
  /** true = elements of lists, or fields of records, too. */
  elements: boolean;
}

/** What running a piece of code may change, if all of that is known by name. */
export function effectsOf(code: AnyNode, names: ReadonlyMap<string, Name>): Effects | undefined {
  const written = new Set<string>();
  const seen = new Set<FunctionNode>();
  let elements = false;
  const enter = (one: AnyNode): boolean => {
    const steps = stepsOf(one);
    if (steps.calls === undefined) return false;
    for (const name of steps.written) written.add(name);
    elements ||= steps.elements;
    return steps.calls.every((name) => {
      const called = names.get(name)?.declaration;
      if (called === undefined || seen.has(called)) return called !== undefined;
      seen.add(called);
      return enter(called.body);
    });
  };
  return enter(code) ? { names: written, elements } : undefined;
}

/** What a piece of code changes by itself, and which functions it calls. */
interface Steps {
  written: readonly string[];
  elements: boolean;
  /** undefined = some that are not known by name, too. */
  calls: readonly string[] | undefined;
}

/** What was found: most of a script is the same in the next round. */
const known = new WeakMap<AnyNode, Steps>();

function stepsOf(code: AnyNode): Steps {
  const before = known.get(code);
  if (before !== undefined) return before;
  const written = new Set<string>();
  const calls = new Set<string>();
  let elements = false;
  let isKnown = true;
  const visit = (node: AnyNode): void => {
    const target = targetOf(node);
    if (target?.type === 'Identifier') written.add(target.name);
    else if (target !== undefined) elements = true;
    if (node.type === 'NewExpression') isKnown = false;
    if (node.type === 'CallExpression') {
      if (node.callee.type === 'Identifier') calls.add(node.callee.name);
      else isKnown = false;
    }
    visitChildren(node, visit);
  };
  visit(code);
  const steps = { written: [...written], elements, calls: isKnown ? [...calls] : undefined };
  known.set(code, steps);
  return steps;
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
