import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { LIMITS } from '../../harness/check/limit-check.ts';
import { createGarage } from '../../harness/demo/create-garage.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { codeBlocks } from './code-blocks.ts';

const ROOT = join(import.meta.dirname, '../..');
const README = read('README.md');
const DOCUMENTS = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md'];

const folder = mkdtempSync(join(tmpdir(), 'axlewright-docs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the README', () => {
  it('its setup loads in a starter garage', async () => {
    const examples = codeBlocks(README, 'ts').filter((block) => block.includes('defineSetup'));
    expect(examples).toHaveLength(1);
    const dir = join(folder, 'example');
    createGarage(dir);
    writeFileSync(join(dir, 'setups/example.ts'), examples[0]!);
    const garage = await loadGarage(dir);
    expect(garage.setups.map((setup) => setup.name)).toContain('hall');
  });

  it('lists every safety limit once, in order', () => {
    const listed = [...README.matchAll(/^\| S(\d+) *\|/gm)].map((row) => Number(row[1]));
    expect(listed).toEqual([...LIMITS]);
  });

  it('names the two commands, and they are scripts of the package', () => {
    expect(README).toContain('npm ci && npm start');
    expect(README).toContain('npm ci && npm test');
    const { scripts } = JSON.parse(read('package.json'));
    const named = DOCUMENTS.flatMap((name) => [...read(name).matchAll(/npm run ([\w:]+)/g)]);
    for (const [, script] of named) expect(Object.keys(scripts)).toContain(script);
  });
});

describe.each(DOCUMENTS)('%s', (name) => {
  it('names only files and folders that exist', () => {
    const text = read(name);
    const links = [...text.matchAll(/\]\(([^)#:]+)\)/g)].map((link) => link[1]!);
    const paths = [...text.matchAll(/`((?:lib|harness|targets|tests)\/[^`*…<> ]*)`/g)].map(
      (path) => path[1]!,
    );
    const missing = [...links, ...paths].filter((path) => !existsSync(join(ROOT, path)));
    expect(missing).toEqual([]);
  });
});

function read(name: string): string {
  return readFileSync(join(ROOT, name), 'utf8');
}
