import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ROOT, sourcesIn } from './sources.ts';

const MOST = 100;
/** Folders beside the sources that hold none of ours. */
const NOT_OURS = ['node_modules', 'dist', 'out'];

// The formatter breaks code, but neither strings nor comments nor the names of tests.
it(`no line of any TypeScript source is longer than ${MOST} characters`, () => {
  const files = sources();
  for (const room of ['harness', 'lib', 'targets', 'tests']) {
    expect(files.filter((file) => file.startsWith(room)).length, room).toBeGreaterThan(3);
  }
  expect(files).toContain('vitest.config.ts');
  expect(files.flatMap(longLines)).toEqual([]);
});

function sources(): string[] {
  const top = readdirSync(ROOT, { withFileTypes: true });
  const rooms = top.filter(
    (entry) => entry.isDirectory() && !entry.name.startsWith('.') && !NOT_OURS.includes(entry.name),
  );
  const beside = top.filter((entry) => entry.isFile() && entry.name.endsWith('.ts'));
  return [...beside.map(({ name }) => name), ...rooms.flatMap(({ name }) => sourcesIn(name))];
}

function longLines(file: string): string[] {
  const lines = readFileSync(join(ROOT, file), 'utf8').split(/\r?\n/);
  return lines.flatMap((line, i) => {
    // Code points: what is beyond 16 bits counts as one character, too.
    const { length } = [...line];
    return length > MOST ? [`${file}:${i + 1}: ${length} characters`] : [];
  });
}
