import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { isPure } from './is-pure.ts';
import { childrenOf, isFunction, mapReadable, mapTree, withStatements } from './tree.ts';
import { collectNames, type Name } from './uses.ts';
import { plainAssignment } from './variables.ts';

/**
 * Puts what a variable is given in the place where alone it is read, if that comes soon and nothing
 * in between changes what it is computed from.
 */
export function joinSteps(program: Program): Program {
  const single = new Set<string>();
  for (const name of collectNames(program).values()) if (isSingle(name)) single.add(name.name);
  return mapTree(program, (node) =>
    node.type === 'BlockStatement' && node.body.some((one) => !isFunction(one))
      ? withStatements(node, joined(node.body, single))
      : node,
  );
}

/** true if it is written once and read once, by the function that owns it. */
function isSingle({ kind, owner, uses }: Name): boolean {
  const [write, read, another] = uses;
  return (
    kind === 'variable' &&
    write?.kind === 'write' &&
    read?.kind === 'read' &&
    another === undefined &&
    write.within === owner &&
    read.within === owner
  );
}

function joined(body: readonly Statement[], single: ReadonlySet<string>): Statement[] {
  const out: Statement[] = [];
  for (const statement of body) {
    let now = statement;
    // From the nearest one back, so that a chain of steps becomes one.
    for (let i = out.length - 1; i >= 0 && i >= out.length - FAR; i--) {
      const set = plainAssignment(out[i]!);
      if (set === undefined || !single.has(set.name) || !isPure(set.value)) continue;
      const next = placeIn(now, set.name, set.value);
      if (next === undefined || !out.slice(i + 1).every((one) => keeps(one, set.value))) continue;
      out.splice(i, 1);
      now = next;
    }
    out.push(now);
  }
  return out;
}

/** How many steps back a value may come from. */
const FAR = 12;

/** The statement with the value in place of the name; undefined if it is not to be put there. */
function placeIn(statement: Statement, name: string, value: Expression): Statement | undefined {
  if (!/^(Expression|Return|If)Statement$/.test(statement.type)) return undefined;
  const part = statement.type === 'IfStatement' ? statement.test : statement;
  if (!reads(part, name)) return undefined;
  let safe = true;
  let found = false;
  /** In order of evaluation: nothing that changes anything may come before the name. */
  const visit = (node: AnyNode): AnyNode => {
    if (node.type === 'Identifier' && node.name === name) {
      found = true;
      return value;
    }
    if (!found && /^(Call|New|Update)Expression$/.test(node.type)) {
      const copy = mapReadable(node, visit);
      safe &&= found;
      return copy;
    }
    if (node.type === 'AssignmentExpression') {
      // A compound one reads its target first.
      if (node.operator !== '=' && node.left.type === 'Identifier') {
        safe &&= found || !reads(value, node.left.name);
      }
      const right = visit(node.right) as Expression;
      if (node.left.type === 'Identifier') {
        safe &&= found;
        return { ...node, right };
      }
      const left = visit(node.left);
      safe &&= found;
      return { ...node, left, right } as AnyNode;
    }
    return mapReadable(node, visit);
  };
  const placed = visit(part);
  if (!safe || !found) return undefined;
  return (
    statement.type === 'IfStatement' ? { ...statement, test: placed as Expression } : placed
  ) as Statement;
}

function reads(tree: AnyNode, name: string): boolean {
  if (tree.type === 'Identifier') return tree.name === name;
  if (tree.type === 'MemberExpression' && !tree.computed) return reads(tree.object, name);
  if (tree.type === 'Property') return reads(tree.value, name);
  return childrenOf(tree).some((child) => reads(child, name));
}

/** true if the statement is a step that changes nothing the value is computed from. */
function keeps(statement: Statement, value: Expression): boolean {
  const set = plainAssignment(statement);
  if (set === undefined || !isPure(set.value)) return false;
  return !reads(value, set.name);
}
