import type { AnyNode, Expression, Program } from 'acorn';
import { knownValue } from './fold.ts';
import { mapChildren, not } from './tree.ts';
import { assignedBy, collectNames, type Name, writesOf } from './uses.ts';

/** What a name can hold: 0 and 1; numbers but never NaN; or anything. */
type Kind = 'bit' | 'number' | 'any';

/**
 * Where only truth is asked for, tests a name itself in place of comparing it with 0 or 1:
 * `x !== 0` becomes `x` where x is never NaN, and `x === 1` where it is 0 or 1.
 */
export function testTruths(program: Program): Program {
  const kinds = kindsOf([...collectNames(program).values()]);
  /** @param asked whether nothing but the truth of the node's value counts */
  const visit = (node: AnyNode, asked: boolean): AnyNode => {
    switch (node.type) {
      case 'IfStatement':
      case 'ConditionalExpression':
        return mapChildren(node, (child) =>
          visit(child, child === node.test || (asked && child.type !== 'BlockStatement')),
        );
      case 'ForStatement':
        return mapChildren(node, (child) => visit(child, child === node.test));
      case 'LogicalExpression':
        return mapChildren(node, (child) => visit(child, asked));
      case 'UnaryExpression':
        return mapChildren(node, (child) => visit(child, node.operator === '!'));
      case 'BinaryExpression': {
        const copy = mapChildren(node, (child) => visit(child, false));
        return (asked && truthOf(copy, kinds)) || copy;
      }
      default:
        return mapChildren(node, (child) => visit(child, false));
    }
  };
  return visit(program, false) as Program;
}

/** What has the truth of a comparison with 0 or 1. */
function truthOf(node: AnyNode, kinds: ReadonlyMap<string, Kind>): Expression | undefined {
  if (node.type !== 'BinaryExpression' || !/^[=!]==$/.test(node.operator)) return undefined;
  const { left, operator, right } = node;
  const value = knownValue(right);
  const kind = left.type === 'Identifier' ? kinds.get(left.name) : undefined;
  if (kind !== 'bit' && (kind !== 'number' || value !== 0)) return undefined;
  if (value !== 0 && value !== 1) return undefined;
  const holds = (operator === '===') === (value === 1);
  const truth = left as Expression;
  if (holds) return truth;
  return not(truth);
}

/** The narrowest kind of each name that all that is assigned to it agrees with. */
function kindsOf(names: readonly Name[]): ReadonlyMap<string, Kind> {
  const kinds = new Map<string, Kind>();
  const variables = names.filter((name) => name.kind === 'variable' && writesOf(name).length > 0);
  for (const { name } of variables) kinds.set(name, 'bit');
  for (let changes = true; changes; ) {
    changes = false;
    for (const name of variables) {
      const before = kinds.get(name.name)!;
      const now = writesOf(name).reduce<Kind>((all, write) => {
        const value = assignedBy(write);
        return wider(all, value === undefined ? 'any' : kindOf(value, kinds));
      }, before);
      if (now === before) continue;
      kinds.set(name.name, now);
      changes = true;
    }
  }
  return kinds;
}

const ORDER: readonly Kind[] = ['bit', 'number', 'any'];

function wider(a: Kind, b: Kind): Kind {
  return ORDER[Math.max(ORDER.indexOf(a), ORDER.indexOf(b))]!;
}

function kindOf(node: AnyNode, kinds: ReadonlyMap<string, Kind>): Kind {
  const value = knownValue(node);
  if (typeof value === 'number') return value === 0 || value === 1 ? 'bit' : 'number';
  switch (node.type) {
    case 'Identifier':
      return kinds.get(node.name) ?? 'any';
    case 'ConditionalExpression':
      return wider(kindOf(node.consequent, kinds), kindOf(node.alternate, kinds));
    case 'AssignmentExpression':
      return node.operator === '=' ? kindOf(node.right, kinds) : 'any';
    case 'BinaryExpression': {
      if (!/^([|&^]|<<|>>>?)$/.test(node.operator)) return 'any';
      const bits = [node.left, node.right].map((side) => kindOf(side, kinds) === 'bit');
      const isBit = node.operator === '&' ? bits.includes(true) : bits[0] && bits[1];
      return isBit && /^[|&]$/.test(node.operator) ? 'bit' : 'number';
    }
    default:
      return 'any';
  }
}
