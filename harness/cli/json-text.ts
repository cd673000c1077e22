/** Decimals of a time in s: what lies beyond them is rounding of binary fractions. */
const DIGITS = 6;

/** A value for machines. Times, the fields whose names end in S, are rounded to the microsecond. */
export function jsonText(value: unknown): string {
  return JSON.stringify(
    value,
    (name, part) =>
      typeof part === 'number' && name.endsWith('S') ? Number(part.toFixed(DIGITS)) : part,
    2,
  );
}
