import type { AnyNode, ArrayExpression, BinaryExpression, Program } from 'acorn';
import { knownValue } from './fold.ts';
import { literal, mapChildren } from './tree.ts';
import { assignedBy, collectNames, isOwnStatement, type Name, writesOf } from './uses.ts';

/**
 * Drops the first numbers of a list that is only ever read from a place on: `list[45 + i]`. It
 * relies on it that what is added to a place is not negative.
 */
export function trimTables(program: Program): Program {
  /** What is dropped, by the list itself and by each place. */
  const firsts = new Map<AnyNode, number>();
  for (const name of collectNames(program).values()) {
    const table = tableOf(name);
    if (table === undefined) continue;
    for (const node of [table.list, ...table.places]) firsts.set(node, table.first);
  }
  const visit = (node: AnyNode): AnyNode => {
    const copy = mapChildren(node, visit);
    const first = firsts.get(node);
    if (first === undefined) return copy;
    if (copy.type === 'ArrayExpression') return { ...copy, elements: copy.elements.slice(first) };
    if (copy.type !== 'BinaryExpression') return copy;
    const place = (knownValue(copy.left) as number) - first;
    return place === 0 ? copy.right : { ...copy, left: literal(place) };
  };
  return visit(program) as Program;
}

/** A list of numbers that is made once, and the places from which on it is read. */
interface Table {
  list: ArrayExpression;
  places: BinaryExpression[];
  first: number;
}

function tableOf(name: Name): Table | undefined {
  const [write, another] = writesOf(name);
  const list = write && isOwnStatement(write) ? assignedBy(write) : undefined;
  if (another !== undefined || list?.type !== 'ArrayExpression') return undefined;
  if (!list.elements.every((one) => one && typeof knownValue(one) === 'number')) return undefined;
  const places: BinaryExpression[] = [];
  for (const use of name.uses) {
    if (use === write) continue;
    const around = use.ancestors[use.ancestors.length - 1];
    if (around?.type !== 'MemberExpression' || around.object !== use.node || !around.computed) {
      return undefined;
    }
    const { property } = around;
    if (property.type !== 'BinaryExpression' || property.operator !== '+') return undefined;
    if (typeof knownValue(property.left) !== 'number') return undefined;
    places.push(property);
  }
  const first = Math.min(...places.map(({ left }) => knownValue(left) as number));
  return Number.isInteger(first) && first > 0 ? { list, places, first } : undefined;
}
