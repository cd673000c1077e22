import { relative } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import pc from 'picocolors';

/** Colours for the terminal; none where NO_COLOR is set or the output is no terminal. */
export const paint = pc.createColors(hasColours());

function hasColours(): boolean {
  const { NO_COLOR, FORCE_COLOR } = process.env;
  if (NO_COLOR) return false;
  return Boolean(FORCE_COLOR) || process.stdout.isTTY === true;
}

/** Writes a line to standard output. */
export function say(line = ''): void {
  process.stdout.write(`${line}\n`);
}

/**
 * Rows with their columns aligned, two spaces between; a row's last column is left as it is, but
 * goes on under itself where the terminal is too narrow for it.
 *
 * @param width of the terminal, characters; undefined = the output is none
 */
export function columns(
  rows: readonly (readonly string[])[],
  width: number | undefined = process.stdout.isTTY ? process.stdout.columns : undefined,
): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, stripVTControlCharacters(cell).length);
    });
  }
  return rows.flatMap((row) => {
    const before = row.slice(0, -1).map((cell, i) => `${padded(cell, widths[i]!)}  `);
    const indent = ' '.repeat(stripVTControlCharacters(before.join('')).length);
    const lines = wrapped(row.at(-1) ?? '', (width ?? Infinity) - indent.length);
    return lines.map((line, i) => `${i === 0 ? before.join('') : indent}${line}`.trimEnd());
  });
}

/** A path as seen from the folder the command was given in, if it lies in there. */
export function nearPath(path: string): string {
  const near = relative(process.cwd(), path);
  return near === '' || near.startsWith('..') ? path : near;
}

/**
 * A line about work under way: rewritten in place on a terminal, left out elsewhere, so that logs
 * hold only results.
 */
export function progress(text: string): void {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[2K${text}`);
}

/** Less room than this is no column; the terminal breaks such lines itself. */
const LEAST_ROOM = 24;

/** A text in lines of at most so many characters, broken between words. */
function wrapped(text: string, room: number): string[] {
  const lines: string[] = [''];
  if (room < LEAST_ROOM) return [text];
  for (const word of text.split(' ')) {
    const longer = lines.at(-1) === '' ? word : `${lines.at(-1)} ${word}`;
    if (stripVTControlCharacters(longer).length <= room) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

function padded(cell: string, width: number): string {
  return cell + ' '.repeat(width - stripVTControlCharacters(cell).length);
}
