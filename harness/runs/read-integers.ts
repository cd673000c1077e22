import { MISSING } from '../../lib/signals.ts';
import type { EvenText } from './read-records.ts';

/**
 * Reads rows of integers straight from the text, where every row is whole: as many cells as there
 * are columns, each an integer of 32 bits or empty. Most runs are so all through, and to cut such a
 * text into rows and cells first takes longer than anything that is done with the numbers.
 *
 * @param into a column for each cell of a row, with room for every line
 * @param due the column whose cells may not be empty
 * @returns false if any row is not whole: the columns are to be filled in another way then
 */
export function readIntegers(even: EvenText, into: readonly Int32Array[], due: number): boolean {
  const { text, newline, lines } = even;
  const last = into.length - 1;
  const delimiter = even.delimiter.charCodeAt(0);
  const breakCode = newline.charCodeAt(0);
  let at = 0;
  for (let row = 0; row < lines; row++) {
    for (let column = 0; column <= last; column++) {
      const negative = text.charCodeAt(at) === MINUS;
      if (negative) at++;
      const first = at;
      let value = 0;
      let code = text.charCodeAt(at);
      while (code >= ZERO && code <= NINE && at - first < MOST_DIGITS) {
        value = value * 10 + (code - ZERO);
        code = text.charCodeAt(++at);
      }
      if (code !== (column === last ? breakCode : delimiter)) return false;
      if (negative) value = 0 - value;
      if (at === first) {
        if (negative || column === due) return false;
        value = MISSING;
      }
      if ((value | 0) !== value) return false;
      into[column]![row] = value;
      at++;
    }
    at += newline.length - 1;
  }
  return at === text.length;
}

const MINUS = 45;
const ZERO = 48;
const NINE = 57;
const MOST_DIGITS = 10;
