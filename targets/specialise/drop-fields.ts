import type { AnyNode, Expression, Program } from 'acorn';
import { knownValue } from './fold.ts';
import { isPure } from './is-pure.ts';
import { mapTree, targetOf, visitChildren } from './tree.ts';

/**
 * Takes out fields of records that nobody reads, and puts the value in place of those that always
 * hold the same number.
 *
 * @param kept names of fields that are read from outside the script
 */
export function dropFields(program: Program, kept: ReadonlySet<string>): Program {
  const fields = fieldsIn(program);
  const unread = new Set<string>();
  const constant = new Map<string, Expression>();
  for (const [name, { reads, written, values }] of fields) {
    if (kept.has(name)) continue;
    if (reads === 0) unread.add(name);
    else if (!written && isOneNumber(values)) constant.set(name, values[0] as Expression);
  }
  if (unread.size === 0 && constant.size === 0) return program;
  const isUnread = (key: AnyNode) => key.type === 'Identifier' && unread.has(key.name);
  return mapTree(program, (node) => {
    const name = fieldOf(node);
    if (name !== undefined && node.type === 'MemberExpression' && isPure(node)) {
      return constant.get(name) ?? node;
    }
    if (node.type === 'AssignmentExpression' && node.operator === '=' && isPure(node.left)) {
      return unread.has(fieldOf(node.left) ?? '') ? node.right : node;
    }
    if (node.type !== 'ObjectExpression') return node;
    const properties = node.properties.filter(
      (one) => one.type !== 'Property' || !isUnread(one.key) || !isPure(one.value),
    );
    return properties.length === node.properties.length ? node : { ...node, properties };
  });
}

interface Field {
  reads: number;
  /** true = it is given values after the record is made. */
  written: boolean;
  /** What it holds when a record is made. */
  values: AnyNode[];
}

function fieldsIn(program: Program): Map<string, Field> {
  const fields = new Map<string, Field>();
  const at = (name: string): Field => {
    const known = fields.get(name) ?? { reads: 0, written: false, values: [] };
    fields.set(name, known);
    return known;
  };
  const visit = (node: AnyNode): void => {
    const name = fieldOf(node);
    if (name !== undefined) at(name).reads++;
    if (node.type === 'Property' && node.key.type === 'Identifier') {
      at(node.key.name).values.push(node.value);
    }
    const target = targetOf(node);
    const written = target && fieldOf(target);
    if (written !== undefined) {
      at(written).written = true;
      // What is given to it is no reading of it.
      if (node.type === 'AssignmentExpression' && node.operator === '=') at(written).reads--;
    }
    visitChildren(node, visit);
  };
  visit(program);
  return fields;
}

function fieldOf(node: AnyNode): string | undefined {
  if (node.type !== 'MemberExpression' || node.computed) return undefined;
  return node.property.type === 'Identifier' ? node.property.name : undefined;
}

function isOneNumber(values: readonly AnyNode[]): boolean {
  const numbers = values.map(knownValue);
  const [first] = numbers;
  return typeof first === 'number' && numbers.every((one) => Object.is(one, first));
}
