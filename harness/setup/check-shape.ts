import type { Problem } from '../problems.ts';
import { fieldProblem } from './field-problem.ts';
import { nearestName } from './nearest-name.ts';
import { fieldName, type Place } from './place.ts';
import type { SchemaNode } from './schema-node.ts';

/**
 * Finds lists where a group of fields belongs, and every unknown field, each with a hint.
 *
 * @returns problems by the path they lie at
 */
export function checkShape(place: Place, root: SchemaNode, value: unknown): Map<string, Problem> {
  const problems = new Map<string, Problem>();
  const leaves = leafPaths(root, '');

  function visit(node: SchemaNode, path: string, found: unknown): void {
    if (node.node === 'field' || typeof found !== 'object' || found === null) return;
    if (Array.isArray(found)) {
      problems.set(path, fieldProblem(place.file, fieldName(place, path), node, found));
      return;
    }
    const values = new Map<string, unknown>(Object.entries(found));
    const entries = entriesOf(node, values);
    if (entries === undefined) return;
    for (const [name, each] of values) {
      const entry = entries.get(name);
      const full = join(path, name);
      if (entry === undefined) problems.set(full, unknown(path, name, [...entries.keys()]));
      else if (entry !== 'key') visit(entry, full, each);
    }
  }

  function unknown(path: string, name: string, known: string[]): Problem {
    const near = nearestName(name, known);
    const elsewhere = leaves.get(nearestName(name, [...leaves.keys()]) ?? '');
    let cure = `Known fields here: ${known.join(', ')}.`;
    if (near !== undefined) cure = `Did you mean "${join(path, near)}"?`;
    else if (elsewhere === join(path, name)) cure = `It belongs to another kind. ${cure}`;
    else if (elsewhere !== undefined) cure = `Did you mean "${elsewhere}"?`;
    const field = fieldName(place, join(path, name));
    return { file: place.file, field, message: 'unknown field.', cure };
  }

  visit(root, '', value);
  return problems;
}

/** The fields that may stand in this place; undefined if the variant's word names none. */
function entriesOf(
  node: Exclude<SchemaNode, { node: 'field' }>,
  values: ReadonlyMap<string, unknown>,
): ReadonlyMap<string, SchemaNode | 'key'> | undefined {
  if (node.node === 'group') return node.entries;
  const option = node.options.get(String(values.get(node.key)));
  return option && new Map<string, SchemaNode | 'key'>([[node.key, 'key'], ...option.entries]);
}

/** Full path of each field by its last name; the first of several. */
function leafPaths(node: SchemaNode, path: string): Map<string, string> {
  const paths = new Map<string, string>();
  const add = (name: string, full: string) => {
    if (!paths.has(name)) paths.set(name, full);
  };
  if (node.node === 'field') add(path.slice(path.lastIndexOf('.') + 1), path);
  const groups = node.node === 'variant' ? [...node.options.values()] : [node];
  for (const group of groups) {
    if (group.node !== 'group') continue;
    for (const [name, entry] of group.entries) {
      for (const [leaf, full] of leafPaths(entry, join(path, name))) add(leaf, full);
    }
  }
  return paths;
}

function join(path: string, name: string): string {
  return path === '' ? name : `${path}.${name}`;
}
