import type { AnyNode, Program } from 'acorn';
import { literal, mapTree } from './tree.ts';

/** Numbers known when a script is built: for each name of an array, its elements. */
export type Known = Readonly<Record<string, readonly number[]>>;

/**
 * Puts numbers in place of elements of known arrays; after `renameApart`.
 *
 * @param settled nodes in which no such element is left; see `mapTree`
 */
export function putKnown(program: Program, known: Known, settled?: Set<AnyNode>): Program {
  const change = (node: AnyNode): AnyNode => {
    if (node.type !== 'MemberExpression' || !node.computed) return node;
    const { object, property } = node;
    if (object.type !== 'Identifier' || property.type !== 'Literal') return node;
    const name = object.name.replace(/\$.*$/, '');
    const value = Object.hasOwn(known, name) ? known[name]![Number(property.value)] : undefined;
    return value === undefined ? node : literal(value);
  };
  return mapTree(program, change, settled);
}
