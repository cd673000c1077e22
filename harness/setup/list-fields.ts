import type * as v from 'valibot';
import type { FieldMeta } from './field.ts';
import { type SchemaNode, schemaNode } from './schema-node.ts';
import { setupSchema } from './setup-schema.ts';
import { surfaceSchema } from './surface-schema.ts';
import { vehicleSchema } from './vehicle-schema.ts';

/** Which kind of file a field belongs to. */
export type RecordName = 'vehicle' | 'surface' | 'setup';

/** All there is to say about one field of a garage's files. */
export interface FieldDoc extends FieldMeta {
  record: RecordName;
  /** Path within its record, such as `split.cutCurve`. */
  path: string;
  /** False if the field may be left out; then `fallback` is its default. */
  required: boolean;
  fallback?: string | number | boolean;
  /** What the group is for that it belongs to. */
  group?: string;
  /** The word beside it with which alone it may be written, such as `kind: "i2t"`. */
  only?: string;
}

/** Schema of each record. */
export const RECORDS = {
  vehicle: vehicleSchema,
  surface: surfaceSchema,
  setup: setupSchema,
} satisfies Record<RecordName, v.GenericSchema>;

/** Every field of vehicle, surface and setup, in the order of their schemas. */
export function listFields(): FieldDoc[] {
  const records: RecordName[] = ['vehicle', 'surface', 'setup'];
  return records.flatMap((record) => fieldsOf(record, '', schemaNode(RECORDS[record]), {}));
}

/** What the fields of a group have in common. */
type Around = Pick<FieldDoc, 'group' | 'only'>;

function fieldsOf(record: RecordName, path: string, node: SchemaNode, around: Around): FieldDoc[] {
  if (node.node === 'field') {
    const { meta, fallback } = node;
    const doc = { record, path, required: !node.optional, ...meta, ...around };
    return [fallback === undefined ? doc : { ...doc, fallback }];
  }
  const prefix = path === '' ? '' : `${path}.`;
  if (node.node === 'group') {
    const inside = path === '' ? around : { ...around, group: node.meaning };
    return [...node.entries].flatMap(([name, entry]) =>
      fieldsOf(record, prefix + name, entry, inside),
    );
  }
  const kind: FieldDoc = {
    record,
    path: prefix + node.key,
    required: true,
    kind: 'choice',
    unit: '',
    choices: [...node.options.keys()],
    meaning: [...node.options].map(([word, option]) => `"${word}": ${option.meaning}`).join(' '),
    wrong: 'The fields beside it do not fit and are refused.',
  };
  const options = [...node.options].flatMap(([word, option]) =>
    fieldsOf(record, path, option, { ...around, only: `${node.key}: "${word}"` }),
  );
  return [kind, ...options];
}
