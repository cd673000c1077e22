import * as v from 'valibot';
import type { FieldMeta } from './field.ts';

/** A schema as a plain tree, for everything that lists fields rather than checks them. */
export type SchemaNode = FieldNode | GroupNode | VariantNode;

export interface FieldNode {
  node: 'field';
  meta: FieldMeta;
  /** True if the field may be left out. */
  optional: boolean;
  /** What it is then. */
  fallback?: string | number | boolean;
}

export interface GroupNode {
  node: 'group';
  meaning: string;
  optional: boolean;
  entries: ReadonlyMap<string, SchemaNode>;
}

/** One of several groups, told apart by the word in its field `key`. */
interface VariantNode {
  node: 'variant';
  key: string;
  optional: boolean;
  options: ReadonlyMap<string, GroupNode>;
}

/** Reads the tree of a schema built by the functions of field.ts. */
export function schemaNode(schema: v.GenericSchema): SchemaNode {
  if (isOptional(schema)) {
    const inner = schemaNode(schema.wrapped);
    if (inner.node !== 'field') return { ...inner, optional: true };
    return { ...inner, optional: true, fallback: v.parse(fallbackSchema, v.getDefault(schema)) };
  }
  if (isVariant(schema)) {
    const options = schema.options.map((option): [string, GroupNode] => {
      const word = option.entries[schema.key];
      return [isLiteral(word) ? word.literal : '', groupNode(option, schema.key)];
    });
    return { node: 'variant', key: schema.key, optional: false, options: new Map(options) };
  }
  if (isGroup(schema)) return groupNode(schema);
  return { node: 'field', meta: v.getMetadata(schema) as FieldMeta, optional: false };
}

type Group = v.ObjectSchema<Record<string, v.GenericSchema>, undefined>;

const fallbackSchema = v.union([v.string(), v.number(), v.boolean()]);

function groupNode(schema: Group, without?: string): GroupNode {
  const entries = Object.entries(schema.entries)
    .filter(([name]) => name !== without)
    .map(([name, entry]): [string, SchemaNode] => [name, schemaNode(entry)]);
  const { meaning } = v.parse(v.object({ meaning: v.string() }), v.getMetadata(schema));
  return { node: 'group', meaning, optional: false, entries: new Map(entries) };
}

function isOptional(
  schema: v.GenericSchema,
): schema is v.OptionalSchema<v.GenericSchema, v.Default<v.GenericSchema, undefined>> {
  return schema.type === 'optional';
}

function isVariant(
  schema: v.GenericSchema,
): schema is v.GenericSchema & { key: string; options: Group[] } {
  return schema.type === 'variant';
}

function isGroup(schema: v.GenericSchema): schema is Group {
  return schema.type === 'object';
}

function isLiteral(
  schema: v.GenericSchema | undefined,
): schema is v.LiteralSchema<string, undefined> {
  return schema?.type === 'literal';
}
