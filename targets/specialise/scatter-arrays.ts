import type { AnyNode, Expression, Program, Statement } from 'acorn';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import {
  assign,
  block,
  identifier,
  isFunction,
  literal,
  mapChildren,
  mapTree,
  withBody,
} from './tree.ts';
import {
  assignedBy,
  collectNames,
  isInLoop,
  type Name,
  nodesAround,
  type Use,
  writesOf,
} from './uses.ts';

/**
 * Makes a variable of each element of an array that is only ever reached by numbers, and never
 * leaves the names it is known by.
 */
export function scatterArrays(program: Program): Program {
  const arrays = new Map<string, number>();
  const replaced = new Map<AnyNode, Statement>();
  const uses: Use[] = [];
  for (const name of collectNames(program).values()) {
    const plan = planOf(name);
    if (plan === undefined) continue;
    arrays.set(name.name, plan.count);
    uses.push(...name.uses);
    for (const [statement, by] of plan.replaced) replaced.set(statement, by);
  }
  if (arrays.size === 0) return program;
  return mapWithin(program, nodesAround(uses), replaced, (node) => {
    if (node.type === 'MemberExpression' && node.object.type === 'Identifier') {
      const count = arrays.get(node.object.name);
      if (count === undefined) return node;
      return node.computed
        ? identifier(elementOf(node.object.name, Number(knownValue(node.property))))
        : literal(count);
    }
    if (isFunction(node) && node.names) {
      return withBody(
        node,
        node.names.flatMap((name) => {
          const count = arrays.get(name);
          if (count === undefined) return [name];
          return Array.from({ length: count }, (_, i) => elementOf(name, i));
        }),
      );
    }
    return node;
  });
}

/** As `mapTouched`, and the statements at creation become others first. */
function mapWithin(
  program: Program,
  touched: ReadonlySet<AnyNode>,
  replaced: ReadonlyMap<AnyNode, Statement>,
  change: (node: AnyNode) => AnyNode,
): Program {
  const visit = (node: AnyNode): AnyNode => {
    const by = replaced.get(node);
    if (by !== undefined) return mapTree(by, change);
    return touched.has(node) ? change(mapChildren(node, visit)) : node;
  };
  return visit(program) as Program;
}

function elementOf(name: string, index: number): string {
  return `${name}$e${index}`;
}

/** What becomes of an array's creation. */
interface Plan {
  count: number;
  replaced: Map<AnyNode, Statement>;
}

function planOf(name: Name): Plan | undefined {
  if (name.kind !== 'variable') return undefined;
  const [write, another] = writesOf(name);
  if (write === undefined || another !== undefined) return undefined;
  if (write.within !== name.owner || isInLoop(write)) return undefined;
  const array = assignedBy(write);
  const creation = write.ancestors[write.ancestors.length - 2];
  if (array?.type !== 'ArrayExpression' || creation?.type !== 'ExpressionStatement')
    return undefined;
  const elements = array.elements.filter(isElementValue);
  if (elements.length !== array.elements.length) return undefined;
  const replaced = new Map<AnyNode, Statement>();
  const steps = elements.map((value, i) => assign(elementOf(name.name, i), value));
  replaced.set(creation, block(steps));
  let count = elements.length;
  let filled = write.at;
  const others: Use[] = [];
  for (const use of name.uses) {
    const pushed = use === write ? undefined : pushedBy(use, name);
    if (pushed !== undefined) {
      filled = use.at;
      const value = assign(elementOf(name.name, count++), pushed);
      replaced.set(use.ancestors[use.ancestors.length - 3]!, value);
    } else if (use !== write) others.push(use);
  }
  const stays = others.every(
    (use) => isElement(use, count) && (use.within !== name.owner || use.at > filled),
  );
  return stays ? { count, replaced } : undefined;
}

function isElementValue(node: AnyNode | null): node is Expression {
  return node !== null && node.type !== 'SpreadElement' && isPure(node);
}

/** What is pushed at creation, straight after other code of the owner. */
function pushedBy(use: Use, name: Name): Expression | undefined {
  const [statement, call, member] = use.ancestors.slice(-3);
  if (use.within !== name.owner || isInLoop(use)) return undefined;
  if (statement?.type !== 'ExpressionStatement' || statement.expression !== call) return undefined;
  if (call?.type !== 'CallExpression' || call.callee !== member) return undefined;
  if (member?.type !== 'MemberExpression' || member.computed) return undefined;
  if (member.property.type !== 'Identifier' || member.property.name !== 'push') return undefined;
  const straight = use.ancestors
    .slice(use.ancestors.lastIndexOf(name.owner as AnyNode) + 1, -3)
    .every(({ type }) => type === 'BlockStatement');
  const [given] = call.arguments;
  return straight && given?.type !== 'SpreadElement' ? given : undefined;
}

/** true for `name[3]` within the array, and for `name.length`. */
function isElement(use: Use, count: number): boolean {
  const around = use.ancestors[use.ancestors.length - 1];
  if (around?.type !== 'MemberExpression' || around.object !== use.node) return false;
  if (!around.computed) {
    return around.property.type === 'Identifier' && around.property.name === 'length';
  }
  const index = knownValue(around.property);
  return typeof index === 'number' && Number.isInteger(index) && index >= 0 && index < count;
}
