import * as v from 'valibot';

/** What a schema knows about one field beside its type; the only source of every text about it. */
export type FieldMeta = {
  /** `number`, `text` (min and max count characters), `flag`, or `choice` (of `choices`). */
  kind: 'number' | 'text' | 'flag' | 'choice';
  /** Unit of a number; empty for anything else. `1` stands for a plain ratio. */
  unit: string;
  /** Inclusive range of a number, or of a text's length. */
  min?: number;
  max?: number;
  /** True if a number must be whole. */
  whole?: true;
  /** The words that may be written; a choice with a range may be a number instead. */
  choices?: readonly string[];
  /** One or two sentences: what the field is. */
  meaning: string;
  /** What 0 means; there for every number whose range holds 0. */
  zero?: string;
  /** What a wrong value costs. */
  wrong: string;
};

type NumberMeta = Omit<FieldMeta, 'kind' | 'choices' | 'whole'> & { min: number; max: number };
type PlainMeta = Pick<FieldMeta, 'meaning' | 'wrong'>;

/** A required number with its unit and inclusive range. */
export function quantity(meta: NumberMeta) {
  return v.pipe(
    v.number(),
    v.minValue(meta.min),
    v.maxValue(meta.max),
    v.metadata<number, FieldMeta>({ kind: 'number', ...meta }),
  );
}

/** A whole number that may be left out. */
export function wholeOr(fallback: number, meta: NumberMeta) {
  const schema = v.pipe(
    v.number(),
    v.minValue(meta.min),
    v.maxValue(meta.max),
    v.integer(),
    v.metadata<number, FieldMeta>({ kind: 'number', whole: true, ...meta }),
  );
  return v.optional(schema, fallback);
}

/** A number that may be left out. */
export function quantityOr(fallback: number, meta: NumberMeta) {
  return v.optional(quantity(meta), fallback);
}

/** One word of a list, or a number in the range if the field has one. */
export function wordOrQuantityOr<const T extends string>(
  word: T,
  fallback: T | number,
  meta: NumberMeta,
) {
  const schema = v.pipe(
    v.union([v.literal(word), v.pipe(v.number(), v.minValue(meta.min), v.maxValue(meta.max))]),
    v.metadata<T | number, FieldMeta>({ kind: 'choice', choices: [word], ...meta }),
  );
  return v.optional(schema, () => fallback);
}

/** A required word of a list. */
export function choice<const T extends readonly string[]>(choices: T, meta: PlainMeta) {
  return v.pipe(
    v.picklist(choices),
    v.metadata<T[number], FieldMeta>({ kind: 'choice', unit: '', choices, ...meta }),
  );
}

/** True or false; may be left out. */
export function flagOr(fallback: boolean, meta: PlainMeta) {
  const schema = v.pipe(
    v.boolean(),
    v.metadata<boolean, FieldMeta>({ kind: 'flag', unit: '', ...meta }),
  );
  return v.optional(schema, fallback);
}

/** A required line of text. */
export function text(max: number, meta: PlainMeta) {
  return v.pipe(
    v.string(),
    v.minLength(1),
    v.maxLength(max),
    v.regex(/^\P{Cc}*$/u),
    v.metadata<string, FieldMeta>({ kind: 'text', unit: '', min: 1, max, ...meta }),
  );
}

/** Fields that belong together. */
export function group<const T extends v.ObjectEntries>(meaning: string, entries: T) {
  return v.pipe(
    v.object(entries),
    v.metadata<v.InferOutput<v.ObjectSchema<T, undefined>>, { meaning: string }>({ meaning }),
  );
}
