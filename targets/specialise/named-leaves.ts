import type { AnyNode } from 'acorn';
import { isPure } from './is-pure.ts';
import type { Leaves } from './shapes.ts';
import { type FunctionNode, isFunction } from './tree.ts';
import { assignedBy, type Name, writesOf } from './uses.ts';

/**
 * What a name is: one of a function that makes no other, one of a function that does or of the
 * script, or a list of such a one that stays in its name.
 */
export type LeafKind = 'inner' | 'outer' | 'list';

/** What each name is. */
export function leafKinds(names: ReadonlyMap<string, Name>): Map<string, LeafKind> {
  const makers = new Map<FunctionNode, boolean>();
  const isOuter = ({ owner }: Name): boolean => {
    if (owner === undefined) return true;
    const makes = makers.get(owner) ?? owner.body.body.some(isFunction);
    makers.set(owner, makes);
    return makes;
  };
  const isList = (name: Name): boolean => {
    const [write, another] = name.kind === 'variable' ? writesOf(name) : [];
    return another === undefined && !!write && assignedBy(write)?.type === 'ArrayExpression';
  };
  const kindOf = (name: Name) => (isOuter(name) ? (isList(name) ? 'list' : 'outer') : 'inner');
  return new Map([...names].map(([text, name]) => [text, kindOf(name)]));
}

/** Leaves of which the names tell what holds. */
export function namedLeaves(kinds: ReadonlyMap<string, LeafKind>): Leaves {
  const isSafe = (node: AnyNode): boolean => {
    switch (node.type) {
      case 'Identifier':
        return kinds.has(node.name);
      case 'Literal':
        return true;
      case 'UnaryExpression':
        return isSafe(node.argument);
      case 'BinaryExpression':
        return isSafe(node.left) && isSafe(node.right);
      case 'CallExpression':
        return isPure(node) && node.arguments.every(isSafe);
      case 'MemberExpression':
        return (
          node.computed &&
          node.object.type === 'Identifier' &&
          kinds.get(node.object.name) === 'list' &&
          isSafe(node.property)
        );
      default:
        return false;
    }
  };
  const isFree = (name: string) => (kinds.get(name) ?? 'inner') !== 'inner';
  return { isFree, isSafe };
}
