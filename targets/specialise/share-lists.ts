import type { AnyNode, ArrayExpression, Program } from 'acorn';
import { generate } from 'astring';
import { knownValue } from './fold.ts';
import {
  callOf,
  functionReturning,
  isFunction,
  mapChildren,
  visitChildren,
  withBody,
} from './tree.ts';

/**
 * Has lists of the same numbers, as the state of each motor starts with, made by one function
 * inside the one that makes them.
 */
export function shareLists(program: Program): Program {
  let count = 0;
  const visit = (node: AnyNode): AnyNode => {
    const copy = mapChildren(node, visit);
    if (!isFunction(copy)) return copy;
    const lists = new Map<string, List>();
    const own = copy.body.body.filter((one) => !isFunction(one));
    for (const statement of own) countIn(statement, lists);
    for (const [text, list] of lists) {
      if (saves(text.length, list.times)) list.name = `list$${count++}`;
      else lists.delete(text);
    }
    if (lists.size === 0) return copy;
    const made = [...lists.values()].map(({ name, value }) => functionReturning(name, [], value));
    const body = copy.body.body.map((one) => (isFunction(one) ? one : calling(one, lists)));
    return withBody(copy, copy.names ?? [], [...made, ...body] as typeof copy.body.body);
  };
  return visit(program) as Program;
}

interface List {
  value: ArrayExpression;
  times: number;
  name: string;
}

/** What a call takes in the text, and the function beside the list. */
const CALL = 4;
const DECLARED = 21;
/** So often that the function gets a name of one letter. */
const MANY = 20;

function saves(length: number, times: number): boolean {
  const call = times < MANY ? CALL : CALL - 1;
  return times * (length - call) > length + DECLARED;
}

/** How a list of numbers is written; undefined for all else. */
function textOf(node: AnyNode): string | undefined {
  if (node.type !== 'ArrayExpression' || node.elements.length === 0) return undefined;
  const numbers = node.elements.every((one) => one && typeof knownValue(one) === 'number');
  return numbers ? generate(node).replaceAll(' ', '') : undefined;
}

function countIn(node: AnyNode, lists: Map<string, List>): void {
  const text = textOf(node);
  if (text !== undefined) {
    const list = lists.get(text) ?? { value: node as ArrayExpression, times: 0, name: '' };
    list.times++;
    lists.set(text, list);
  }
  visitChildren(node, (child) => {
    countIn(child, lists);
  });
}

function calling(node: AnyNode, lists: ReadonlyMap<string, List>): AnyNode {
  const list = lists.get(textOf(node) ?? '');
  if (list === undefined) return mapChildren(node, (child) => calling(child, lists));
  return callOf(list.name, []);
}
