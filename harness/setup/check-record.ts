import * as v from 'valibot';
import type { Problem } from '../problems.ts';
import { checkShape } from './check-shape.ts';
import { fieldProblem } from './field-problem.ts';
import { fieldName, type Place } from './place.ts';
import { breachProblem, type Rule } from './rule.ts';
import { type SchemaNode, schemaNode } from './schema-node.ts';

/**
 * Checks a value against a record's schema and rules and fills in its defaults.
 *
 * @returns the record, undefined if there is any problem; and all problems, not only the first
 */
export function checkRecord<T>(
  schema: v.GenericSchema<unknown, T>,
  rules: readonly Rule<T>[],
  value: unknown,
  place: Place,
): { record: T | undefined; problems: Problem[] } {
  const root = schemaNode(schema);
  const result = v.safeParse(schema, value);
  const found = checkShape(place, root, value);
  for (const issue of result.issues ?? []) {
    const path = v.getDotPath(issue) ?? '';
    if (isWithin(path, found)) continue;
    const node = nodeAt(root, path.split('.'), value);
    const field = fieldName(place, path);
    found.set(path, fieldProblem(place.file, field, node, valueAt(value, path)));
  }
  const problems = [...found.values()];
  // Rules read only fields that were found good, so a record that failed elsewhere serves as well.
  const record = result.output as T;
  for (const rule of rules) {
    if (rule.fields.some((field) => isWithin(field, found))) continue;
    const breach = rule.broken(record);
    if (breach) problems.push(breachProblem(place.file, fieldName(place, rule.fields[0]), breach));
  }
  return { record: problems.length === 0 ? record : undefined, problems };
}

/** True if the path, or a group that holds it, is among `paths`. */
function isWithin(path: string, paths: ReadonlyMap<string, unknown>): boolean {
  const names = path.split('.');
  return paths.has('') || names.some((_, i) => paths.has(names.slice(0, i + 1).join('.')));
}

function nodeAt(root: SchemaNode, names: readonly string[], value: unknown): SchemaNode {
  const [name = '', ...rest] = names;
  if (root.node === 'field' || name === '') return root;
  if (root.node === 'variant') {
    const word = String(valueAt(value, root.key));
    const option = root.options.get(word);
    if (name !== root.key && option) return nodeAt(option, names, value);
    const choices = [...root.options.keys()];
    const meta = {
      kind: 'choice',
      unit: '',
      choices,
      meaning: 'which kind it is.',
      wrong: '',
    } as const;
    return { node: 'field', meta, optional: false };
  }
  const entry = root.entries.get(name);
  return entry ? nodeAt(entry, rest, valueAt(value, name)) : root;
}

function valueAt(value: unknown, path: string): unknown {
  let found = value;
  for (const name of path === '' ? [] : path.split('.')) {
    found = new Map<string, unknown>(Object.entries(found ?? {})).get(name);
  }
  return found;
}
