import type { Program } from 'acorn';
import { isPure } from './is-pure.ts';
import { block, expressionStatement, isFunction, mapTree, withBody } from './tree.ts';
import { collectNames, readsOf } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Takes out names that nobody reads, with what is assigned to them, and what comes after a return.
 */
export function dropUnused(program: Program): Program {
  const names = collectNames(program);
  const used = (name: string) => {
    const found = names.get(name);
    return found === undefined || found.kind === 'parameter' || readsOf(found).length > 0;
  };
  return mapTree(program, (node) => {
    if (node.type === 'FunctionDeclaration' && node.id && !used(node.id.name)) return block([]);
    if (isFunction(node) && node.names) {
      return withBody(node, node.names.filter(used));
    }
    if (node.type === 'ExpressionStatement') {
      const set = plainAssignment(node);
      if (set !== undefined && !used(set.name)) {
        return isPure(set.value) ? block([]) : expressionStatement(set.value);
      }
      return isPure(node.expression) ? block([]) : node;
    }
    if (node.type === 'IfStatement' && isPure(node.test)) {
      const empty = [node.consequent, node.alternate].every(
        (branch) =>
          branch == null || (branch.type === 'BlockStatement' && branch.body.length === 0),
      );
      if (empty) return block([]);
    }
    if (node.type === 'BlockStatement') {
      const end = node.body.findIndex(({ type }) => type === 'ReturnStatement');
      const body = node.body.flatMap((one, i) =>
        one.type === 'BlockStatement'
          ? one.body
          : end >= 0 && i > end && one.type !== 'FunctionDeclaration'
            ? []
            : [one],
      );
      return { ...node, body };
    }
    return node;
  });
}
