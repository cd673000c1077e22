import type { Program } from 'acorn';
import { inTail } from './in-tail.ts';
import { block, mapTree, some, statementsOf } from './tree.ts';

/** Ends a round of a loop by branches, not by `continue`: what is left is joined further on. */
export function dropContinues(program: Program): Program {
  return mapTree(program, (node) => {
    if (node.type !== 'ForStatement') return node;
    if (!some(node.body, ({ type }) => type === 'ContinueStatement')) return node;
    const body = inTail(statementsOf(node.body), () => [], 'ContinueStatement');
    return body === undefined ? node : { ...node, body: block(body) };
  });
}
