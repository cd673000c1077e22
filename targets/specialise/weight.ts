import type { AnyNode } from 'acorn';
import { isLoop, type Use } from './uses.ts';

/** About how often the uses run in one call: a loop runs twice, a branch every other time. */
export function weight(uses: readonly Use[]): number {
  return uses.reduce((sum, { node, ancestors, within }) => {
    const path = [...ancestors.slice(within === undefined ? 0 : ancestors.indexOf(within)), node];
    const times = path.map((one, i) => (isLoop(one) ? 2 : isBranch(one, path[i + 1]) ? 1 / 2 : 1));
    return sum + times.reduce((product, factor) => product * factor, 1);
  }, 0);
}

function isBranch(node: AnyNode, next: AnyNode | undefined): boolean {
  if (node.type === 'LogicalExpression') return node.right === next;
  if (node.type !== 'IfStatement' && node.type !== 'ConditionalExpression') return false;
  return node.test !== next;
}
