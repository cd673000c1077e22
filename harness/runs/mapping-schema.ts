import * as v from 'valibot';
import { LAYOUT_NAMES } from './run-columns.ts';
import { ENCODINGS } from './text-source.ts';
import { TIME_UNITS } from './units.ts';

/** How a foreign log is read; the fields are described in SPEC.md. */
export type Mapping = v.InferOutput<typeof mappingSchema>;

/** How one column of the core comes out of one of the log. */
export type ColumnMapping = v.InferOutput<typeof columnSchema>;

/** How the time stamps come out of one or two columns of the log. */
export type TimeMapping = v.InferOutput<typeof timeSchema>;

/** A column of the log: its header, or its number from 1. */
export type SourceColumn = string | number;

const source = v.union([v.string(), v.pipe(v.number(), v.integer(), v.minValue(1))]);
const DELIMITER = 'expected one character that no number contains, such as ";" or "\\t".';
const count = v.pipe(v.number(), v.integer(), v.minValue(0));

export const columnSchema = v.strictObject({
  from: source,
  unit: v.optional(v.string()),
  scale: v.optional(v.number(), 1),
  negate: v.optional(v.boolean(), false),
  offset: v.optional(v.number(), 0),
  missing: v.optional(v.array(v.string()), ['']),
});

export const timeSchema = v.strictObject({
  from: v.union([source, v.tuple([source, source])]),
  unit: v.optional(v.picklist(TIME_UNITS)),
  format: v.optional(v.string()),
  zone: v.optional(v.string(), 'utc'),
  fromStart: v.optional(v.boolean(), true),
});

export const runSchema = v.strictObject({
  layout: v.optional(v.picklist(LAYOUT_NAMES)),
  vehicle: v.optional(v.string()),
  surface: v.optional(v.string()),
  startsAtPowerUp: v.optional(v.boolean()),
  notes: v.optional(v.array(v.string())),
});

export const mappingSchema = v.strictObject({
  encoding: v.optional(v.picklist(ENCODINGS), 'utf-8'),
  delimiter: v.optional(v.pipe(v.string(), v.regex(/^[^"\r\n\w.+-]$/u, DELIMITER)), ','),
  decimal: v.optional(v.picklist(['.', ',']), '.'),
  group: v.optional(v.picklist(['.', ',', ' ', '\u00a0', '\u202f', "'", '\u2019'])),
  skipLines: v.optional(count, 0),
  comment: v.optional(v.pipe(v.string(), v.minLength(1))),
  header: v.optional(v.boolean(), true),
  skipAfterHeader: v.optional(count, 0),
  time: timeSchema,
  columns: v.record(v.string(), columnSchema),
  keep: v.optional(v.union([v.literal('all'), v.array(source)]), []),
  run: v.optional(runSchema, {}),
});
