import { TABLE_POINTS } from '../../lib/constants.ts';

/** One baked constant, and the field to blame if it does not fit. */
export interface Row {
  /** Index in the core's constants. */
  index: number;
  field: string;
  /** An integer in the core's unit. */
  value: number;
}

/**
 * The rows in the order of their indices.
 *
 * @throws Error if an index up to `count` has no row or two
 */
export function toWords(rows: readonly Row[], count: number): number[] {
  const words: number[] = [];
  for (const { index, value } of [...rows].sort((a, b) => a.index - b.index)) {
    if (index !== words.length)
      throw new Error(`constant ${words.length} of ${count} is not baked`);
    words.push(value);
  }
  if (words.length !== count) throw new Error(`${words.length} of ${count} constants are baked`);
  return words;
}

/** A row whose value is a number of the core's units a unit of the field, rounded. */
export function scaled(index: number, field: string, value: number, perUnit: number): Row {
  // Adding 0 turns -0, which some engines lose, into 0.
  return { index, field, value: Math.round(value * perUnit) + 0 };
}

/** A row of 1 or 0. */
export function flag(index: number, field: string, value: boolean): Row {
  return { index, field, value: value ? 1 : 0 };
}

/**
 * A table over |steering| from 0 to full lock.
 *
 * @param at value at a share of full lock, 0 to 1; baked in 1/10000
 */
export function table(index: number, field: string, at: (share: number) => number): Row[] {
  return Array.from({ length: TABLE_POINTS }, (_, i) =>
    scaled(index + i, field, at(i / (TABLE_POINTS - 1)), 10_000),
  );
}
