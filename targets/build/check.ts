import { type Program, parse } from 'acorn';
import type { Manifest } from '../manifest.ts';
import type { Finding } from './finding.ts';
import { verifyBundle } from './header.ts';
import { nameFindings } from './name-rules.ts';
import { syntaxFindings } from './syntax-rules.ts';

/** What `checkBundle` looks at beside the language. */
export interface CheckOptions {
  /** true (default) = the text is what goes on the hub: hold it to the manifest's bytes. */
  measure?: boolean;
}

/**
 * The gate before the hub: header and CRC, ES5 syntax, constructs and names that fail or differ
 * on some small engine, and the manifest's byte budget.
 *
 * @param code a whole bundle, first line included
 * @returns all that was found, by line; empty = it may go on a hub
 */
export function checkBundle(
  code: string,
  manifest: Manifest,
  options: CheckOptions = {},
): Finding[] {
  const findings: Finding[] = [];
  const verified = verifyBundle(code);
  if (verified.problem !== undefined) {
    findings.push({ rule: 'header', line: 1, column: 1, message: verified.problem });
  } else if (options.measure !== false) {
    const { variant, setups } = verified.header;
    const most =
      manifest.maxBytes[variant] + (setups.length - 1) * manifest.maxBytesPerFurtherSetup;
    if (code.length > most) {
      const message =
        `${code.length} bytes, the ${manifest.name} hub takes ${most} for \`${variant}\` with ` +
        `${setups.length} setup(s); build it with --smallest, or put fewer setups on board`;
      findings.push({ rule: 'bytes', line: 1, column: 1, message });
    }
  }
  const program = parseEs5(code);
  if ('message' in program) return [...findings, program];
  const found = [
    ...outsideAscii(code),
    ...syntaxFindings(program),
    ...nameFindings(program, manifest.ports),
  ];
  return [...findings, ...found.sort((a, b) => a.line - b.line || a.column - b.column)];
}

function parseEs5(code: string): Program | Finding {
  try {
    return parse(code, { ecmaVersion: 5, sourceType: 'script', locations: true });
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const { line, column } = (error as SyntaxError & { loc: { line: number; column: number } }).loc;
    const reason = error.message.replace(/ \(\d+:\d+\)$/, '');
    const message =
      `not ES5: ${reason}; a hub's engine knows no newer syntax, ` +
      'let the build lower it or write it plainly';
    return { rule: 'es5', line, column: column + 1, message };
  }
}

function outsideAscii(code: string): Finding[] {
  const at = code.search(/[^\t\n\x20-\x7e]/);
  if (at < 0) return [];
  const before = code.slice(0, at).split('\n');
  return [
    {
      rule: 'ascii',
      line: before.length,
      column: before[before.length - 1]!.length + 1,
      message: 'a character outside ASCII: engines read bytes differently; write it as \\uXXXX',
    },
  ];
}
