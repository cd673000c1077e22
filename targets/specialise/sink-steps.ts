import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { isSimple } from './interference.ts';
import { isPure, OUTLINED } from './is-pure.ts';
import { mapReadable, mapTree, mentions, some, targetOf, withStatements } from './tree.ts';
import { collectNames, isInLoop, isOwnStatement, type Name, readsOf, writesOf } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Works out what a loop reads at one place there, round by round, where it comes to the same in
 * each: less text than a variable that is given it before, but more work.
 */
export function sinkSteps(program: Program): Program {
  const names = collectNames(program);
  const isSunk = (name: string) => {
    const known = names.get(name);
    return known !== undefined && isSingle(known);
  };
  return mapTree(program, (node) =>
    node.type === 'BlockStatement' ? withStatements(node, sunk(node.body, isSunk)) : node,
  );
}

/** true for a variable of a function that gives it a value once, and reads it once, in a loop. */
function isSingle(name: Name): boolean {
  const [[write, another], [read, more]] = [writesOf(name), readsOf(name)];
  if (name.kind !== 'variable' || !write || another || !read || more) return false;
  if (!name.owner || !isSimple(name.owner)) return false;
  return isOwnStatement(write) && !isInLoop(write) && isInLoop(read);
}

function sunk(body: readonly Statement[], isSunk: (name: string) => boolean): Statement[] {
  const out = [...body];
  for (let i = out.length - 1; i >= 0; i--) {
    const set = plainAssignment(out[i]!);
    if (set === undefined || !isSunk(set.name) || !isPure(set.value) || hasParts(set.value))
      continue;
    const at = out.findIndex((one, j) => j > i && mentions(one, set.name));
    const loop = out[at];
    if (loop?.type !== 'ForStatement') continue;
    if (!out.slice(i + 1, at + 1).every((one) => leaves(one, set.value))) continue;
    out[at] = put(loop, set.name, set.value) as Statement;
    out.splice(i, 1);
  }
  return out;
}

/**
 * true for what may change without a name in it being given another value, or be another each time:
 * what is called may read anything.
 */
function hasParts(value: Expression): boolean {
  return some(value, ({ type }) => /^(Member|Call|Array|Object)Expression$/.test(type));
}

/** true if what is run there gives nothing another value that the expression is worked out from. */
function leaves(tree: AnyNode, value: Expression): boolean {
  return !some(tree, (node) => {
    if (node.type === 'NewExpression') return true;
    if (node.type === 'CallExpression') {
      return node.callee.type !== 'Identifier' || !node.callee.name.startsWith(OUTLINED);
    }
    const target = targetOf(node);
    return target?.type === 'Identifier' && mentions(value, target.name);
  });
}

function put(tree: AnyNode, name: string, value: Expression): AnyNode {
  const visit = (node: AnyNode): AnyNode =>
    node.type === 'Identifier' && node.name === name ? value : mapReadable(node, visit);
  return visit(tree);
}
