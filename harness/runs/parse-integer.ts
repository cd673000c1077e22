/**
 * Reads a decimal integer: an optional minus sign and 1 to 10 digits, nothing else.
 *
 * @returns the integer, which may lie beyond 32 bits; NaN for any other text
 */
export function parseInteger(text: string): number {
  const end = text.length;
  const negative = end > 0 && text.charCodeAt(0) === MINUS;
  let at = negative ? 1 : 0;
  if (at === end || end - at > MOST_DIGITS) return Number.NaN;
  let value = 0;
  for (; at < end; at++) {
    const digit = text.charCodeAt(at) - ZERO;
    if (digit < 0 || digit > 9) return Number.NaN;
    value = value * 10 + digit;
  }
  return negative ? 0 - value : value;
}

const MINUS = 45;
const ZERO = 48;
const MOST_DIGITS = 10;
