import { tokenizer } from 'acorn';

/**
 * Writes every whole number of an ES5 script with plain digits: esbuild prints 1000 as 1e3, and
 * not every engine parses an exponent exactly. Numbers that are not whole stay for the gate.
 */
export function plainNumbers(code: string): string {
  let plain = '';
  let copied = 0;
  for (const token of tokenizer(code, { ecmaVersion: 5 })) {
    if (token.type.label !== 'num') continue;
    const raw = code.slice(token.start, token.end);
    const value = Number(raw);
    if (!/^[\d.]+e/i.test(raw) || !Number.isSafeInteger(value)) continue;
    plain += code.slice(copied, token.start) + String(value);
    copied = token.end;
  }
  return plain + code.slice(copied);
}
