import { escapePattern } from './escape-pattern.ts';

/** Reads decimal numbers as a foreign log writes them. */
export type DecimalParser = (text: string) => number;

/**
 * @param mark decimal mark
 * @param group mark between groups of three digits; undefined = there is none
 * @returns a reader that gives NaN for any text that is not one number and nothing else
 */
export function createDecimalParser(mark: '.' | ',', group?: string): DecimalParser {
  const groups = group === undefined ? '' : `\\d{1,3}(?:${escapePattern(group)}\\d{3})+|`;
  const grammar = new RegExp(
    `^[+-]?(?:${groups}\\d+|(?=\\${mark}\\d))(?:\\${mark}\\d*)?${EXPONENT}$`,
  );
  return (text) => {
    const plain = text.trim();
    if (!grammar.test(plain)) return Number.NaN;
    const digits = group === undefined ? plain : plain.replaceAll(group, '');
    return Number(digits.replace(mark, '.'));
  };
}

const EXPONENT = '(?:[eE][+-]?\\d+)?';
