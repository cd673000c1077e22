import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { evaluateFile } from '../../harness/setup/evaluate-file.ts';

let dir = '';

beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'axlewright-'));
});

afterEach(() => {
  rmSync(dir, { recursive: true });
});

function write(name: string, text: string): string {
  const file = join(dir, name);
  writeFileSync(file, text);
  return file;
}

/** The message a file gets, its folder written as DIR. */
async function messageOf(file: string): Promise<string> {
  const error = await evaluateFile(file).then(
    () => undefined,
    (each: unknown) => each,
  );
  expect(error).toBeInstanceOf(UserError);
  return String(error instanceof Error && error.message).replaceAll(dir, 'DIR');
}

describe('a folder without node_modules', () => {
  test('a TypeScript file that imports axlewright gives its default export', async () => {
    const file = write(
      'a.ts',
      [
        "import { defineSetup } from 'axlewright';",
        "import { hold } from './shared.ts';",
        "const name: string = 'a';",
        "export default defineSetup({ name, surface: 'b', link: { holdMs: hold } });",
      ].join('\n'),
    );
    write('shared.ts', 'export const hold: number = 120;');
    expect(await evaluateFile(file)).toEqual({ name: 'a', surface: 'b', link: { holdMs: 120 } });
  });

  test('a JavaScript file does as well', async () => {
    expect(await evaluateFile(write('a.js', 'export default { name: "a" };'))).toEqual({
      name: 'a',
    });
  });

  test('a changed file is read again', async () => {
    const file = write('a.ts', 'export default 1;');
    expect(await evaluateFile(file)).toBe(1);
    writeFileSync(file, 'export default 2;');
    expect(await evaluateFile(file)).toBe(2);
  });
});

describe('what a file that does not run gets, word for word', () => {
  test.each<[string, string, string]>([
    [
      'a syntax error',
      'export default {\n  a: 1,\n  b: = 2,\n};\n',
      'DIR/a.ts:3: Unexpected "=". Mend this line: b: = 2,',
    ],
    [
      'a field written twice',
      'export default {\n  a: 1,\n  a: 2,\n};\n',
      'DIR/a.ts:3: Duplicate key "a" in object literal. Mend this line: a: 2,',
    ],
    [
      'an import that is not there',
      "import { b } from './b.ts';\nexport default b;\n",
      'DIR/a.ts:1: Could not resolve "./b.ts". Mend this line: import { b } from \'./b.ts\';',
    ],
    [
      'a function the package does not offer',
      "import { defineCar } from 'axlewright';\nexport default defineCar({});\n",
      'DIR/a.ts:1: No matching export in "FILE" for import "defineCar". ' +
        "Mend this line: import { defineCar } from 'axlewright';",
    ],
    [
      'an error while it runs',
      '\nconst car = undefined;\nexport default car.mass;\n',
      'DIR/a.ts:3: the file throws TypeError: Cannot read properties of undefined (reading ' +
        "'mass'). Mend the file.",
    ],
    ['something thrown', "throw 'no';", 'DIR/a.ts: the file throws no. Mend the file.'],
    [
      'no default export',
      'export const a = 1;',
      'DIR/a.ts: the file has no default export. Write "export default define...({ ... })" as in ' +
        'a garage of "axlewright new".',
    ],
  ])('%s', async (_, text, message) => {
    const found = await messageOf(write('a.ts', text));
    expect(found.replace(/"[^"]*define\.js"/, '"FILE"')).toBe(message);
  });

  test('an error in a file it imports is reported there', async () => {
    write('b.ts', 'export const b = ;\n');
    const file = write('a.ts', "import { b } from './b.ts';\nexport default b;\n");
    expect(await messageOf(file)).toBe(
      'DIR/b.ts:1: Unexpected ";". Mend this line: export const b = ;',
    );
  });

  test('a file that is not there', async () => {
    expect(await messageOf(join(dir, 'c.ts'))).toBe(
      'DIR/c.ts: there is no such file. Check the name; "axlewright new DIR" makes a complete ' +
        'garage.',
    );
  });
});
