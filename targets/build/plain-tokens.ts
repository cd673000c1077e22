import { type Token, tokenizer } from 'acorn';

/**
 * Takes back two of esbuild's shorter spellings in an ES5 script: whole numbers get plain digits,
 * since not every engine parses 1e3 exactly, and == becomes === again, which it stands for only
 * where both sides are of one type. Numbers that are not whole stay for the gate.
 *
 * @param tight true = no white space where none is needed any more
 */
export function plainTokens(code: string, tight = false): string {
  let plain = '';
  let copied = 0;
  for (const token of tokenizer(code, { ecmaVersion: 5 })) {
    const spelling = plainSpelling(token, code.slice(token.start, token.end));
    if (spelling === undefined) continue;
    const before = code.slice(copied, token.start);
    plain += (tight && spelling.startsWith('!') ? before.trimEnd() : before) + spelling;
    copied = token.end;
  }
  return plain + code.slice(copied);
}

/** How a token is to be spelt, or undefined if it is well as it is. */
function plainSpelling(token: Token, raw: string): string | undefined {
  // esbuild writes them out where it does not shorten syntax.
  if (raw === 'true' || raw === 'false') return raw === 'true' ? '!0' : '!1';
  if (raw === '==' || raw === '!=') return `${raw}=`;
  if (token.type.label !== 'num' || !/^[\d.]+e/i.test(raw)) return undefined;
  const value = Number(raw);
  return Number.isSafeInteger(value) ? String(value) : undefined;
}
