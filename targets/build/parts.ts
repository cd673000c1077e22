import { type Token, tokenizer } from 'acorn';
import { moduleOf } from '../specialise/rename-apart.ts';
import type { Es5Script } from './es5.ts';

/** A source module and its bytes in a script. */
export interface Part {
  /**
   * Path of the module in the package, `constants`, `wrapper` for what belongs to none, or `shared
   * names` for what is less because variables share names.
   */
  name: string;
  bytes: number;
}

/**
 * Bytes of each source module in the minified script, in the script's order. Code of one module
 * may stand in a function of another, so the names tell: a token belongs to the module of the last
 * name before it. The form in which no variables share a name is the same program, and there each
 * name tells its module; what the sharing saves is a part of its own.
 */
export function partsOf(script: Es5Script): Part[] {
  const [shortCode, code] = script.apart;
  const short = tokensOf(shortCode);
  const minified = tokensOf(code);
  if (short.length !== minified.length) {
    throw new Error('the short and the minified form differ in their tokens');
  }
  const bytes = new Map<string, number>();
  let name = 'wrapper';
  let counted = 0;
  short.forEach((token, i) => {
    const end = minified[i + 1]?.start ?? code.length;
    if (token.type.label === 'name') {
      name = moduleOf(shortCode.slice(token.start, token.end), script.modules) ?? name;
    }
    bytes.set(name, (bytes.get(name) ?? 0) + end - counted);
    counted = end;
  });
  const saved = script.minified.length - code.length;
  if (saved !== 0) bytes.set('shared names', saved);
  return [...bytes].map(([part, count]) => ({ name: part, bytes: count }));
}

/**
 * The tokens of a script but for what esbuild spells in two ways: semicolons, of which a brace may
 * take the place, and the ! of !0, which is `true`, too.
 */
function tokensOf(code: string): Token[] {
  const tokens = [...tokenizer(code, { ecmaVersion: 5 })];
  return tokens.filter(({ type, start, end }, i) => {
    const next = tokens[i + 1];
    const isTruth = code.slice(start, end) === '!' && next?.type.label === 'num';
    return type.label !== ';' && !isTruth;
  });
}
