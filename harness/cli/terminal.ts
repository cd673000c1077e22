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

/** Rows with their columns aligned, two spaces between; a row's last column is left as it is. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, i) => {
      widths[i] = Math.max(widths[i] ?? 0, stripVTControlCharacters(cell).length);
    });
  }
  return rows.map((row) =>
    row
      .map((cell, i) => (i === row.length - 1 ? cell : padded(cell, widths[i]!)))
      .join('  ')
      .trimEnd(),
  );
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

function padded(cell: string, width: number): string {
  return cell + ' '.repeat(width - stripVTControlCharacters(cell).length);
}
