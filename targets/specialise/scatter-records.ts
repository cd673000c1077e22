import type { ObjectExpression, Program, Statement } from 'acorn';
import { assign, block, identifier, isFunction, mapTouched, withBody } from './tree.ts';
import {
  assignedBy,
  collectNames,
  isInLoop,
  type Name,
  nodesAround,
  type Use,
  writesOf,
} from './uses.ts';
import { plainAssignment } from './variables.ts';

/** Makes a variable of each field of a record that never leaves the names it is known by. */
export function scatterRecords(program: Program): Program {
  const records = new Map<string, Map<string, string>>();
  const added = new Map<string, string[]>();
  const uses: Use[] = [];
  for (const name of collectNames(program).values()) {
    const fields = fieldsOf(name);
    if (fields === undefined) continue;
    uses.push(...name.uses);
    records.set(name.name, fields);
    added.set(name.name, [...fields.values()]);
  }
  if (records.size === 0) return program;
  return mapTouched(program, nodesAround(uses), (node) => {
    if (node.type === 'MemberExpression' && !node.computed && node.object.type === 'Identifier') {
      const field = node.property.type === 'Identifier' ? node.property.name : '';
      const variable = records.get(node.object.name)?.get(field);
      return variable === undefined ? node : identifier(variable);
    }
    if (node.type === 'ExpressionStatement') {
      const set = plainAssignment(node);
      const fields = set && records.get(set.name);
      return fields && set ? block(spread(set.value as ObjectExpression, fields)) : node;
    }
    if (isFunction(node) && node.names) {
      const names = node.names.flatMap((name) => added.get(name) ?? [name]);
      return withBody(node, names);
    }
    return node;
  });
}

function spread(record: ObjectExpression, fields: ReadonlyMap<string, string>): Statement[] {
  return record.properties.flatMap((property) =>
    property.type === 'Property' && property.key.type === 'Identifier'
      ? [assign(fields.get(property.key.name)!, property.value)]
      : [],
  );
}

/** Variables for the fields of a record, or undefined if the name is none or it leaves. */
function fieldsOf(name: Name): Map<string, string> | undefined {
  if (name.kind !== 'variable') return undefined;
  const [write, another] = writesOf(name);
  if (write === undefined || another !== undefined) return undefined;
  if (write.within !== name.owner || isInLoop(write)) return undefined;
  const statement = write.ancestors[write.ancestors.length - 2];
  const record = assignedBy(write);
  if (record?.type !== 'ObjectExpression' || statement?.type !== 'ExpressionStatement') {
    return undefined;
  }
  const fields = new Map<string, string>();
  for (const property of record.properties) {
    if (property.type !== 'Property' || property.key.type !== 'Identifier') return undefined;
    fields.set(property.key.name, `${property.key.name}$${name.name}`);
  }
  const stays = name.uses.every((use) => {
    if (use === write) return true;
    const around = use.ancestors[use.ancestors.length - 1];
    return (
      around?.type === 'MemberExpression' &&
      !around.computed &&
      around.object === use.node &&
      around.property.type === 'Identifier' &&
      fields.has(around.property.name)
    );
  });
  return stays ? fields : undefined;
}
