import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { checkPlace, makeFolder, readError, writeError } from '../harness/file-error.ts';
import { UserError } from '../harness/problems.ts';

const folder = mkdtempSync(join(tmpdir(), 'axlewright-places-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = join(folder, 'file');
writeFileSync(file, '');

const failed = (code: string) => Object.assign(new Error(`${code}: some call`), { code });

test.each([
  [
    'ENOENT',
    /run\.csv: there is no such file\. Check the path\.$/,
    /run\.csv: there is no such folder/,
  ],
  ['EISDIR', /run\.csv: is a folder, expected a file\./, /is a folder, expected a file to write\./],
  ['ENOTDIR', /its folder is a file\./, /would lie under a file\./],
  ['EACCES', /may not be read\. Give yourself/, /may not be written\. Name a folder/],
  ['EIO', /cannot be read \(EIO\)\.$/, /cannot be written \(EIO\)\.$/],
])('%s is told in words', (code, read, written) => {
  for (const [error, words] of [
    [readError('run.csv', failed(code)), read],
    [writeError('run.csv', failed(code)), written],
  ] as const) {
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).message).toMatch(words);
  }
});

test('an error that is none of the file system stays what it is', () => {
  const error = new TypeError('of our own');
  expect(readError('run.csv', error)).toBe(error);
  expect(writeError('run.csv', error)).toBe(error);
});

test('a place is refused before the work', async () => {
  await checkPlace(join(folder, 'new.csv'));
  await expect(checkPlace(folder, '--out')).rejects.toThrow(/--out: is a folder/);
  await expect(checkPlace(join(folder, 'no', 'new.csv'))).rejects.toThrow(/no such folder/);
  await expect(checkPlace(join(file, 'new.csv'))).rejects.toThrow(/would lie under a file/);
});

test('a folder is made with those around it, or refused', async () => {
  const deep = join(folder, 'some', 'folders', 'deep');
  makeFolder(deep);
  makeFolder(deep);
  expect(statSync(deep).isDirectory()).toBe(true);
  expect(() => makeFolder(file)).toThrow(/file: is a file, expected a folder/);
  expect(() => makeFolder(join(file, 'deep'))).toThrow(/file: is a file, expected a folder/);
});

test.runIf(existsSync('/proc/self'))('where no folder can be made, that is told', async () => {
  expect(() => makeFolder('/proc/no/folder')).toThrow(/no: takes no folder\. Name a folder/);
});
