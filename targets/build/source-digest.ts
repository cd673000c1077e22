import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { generic } from '../generic/manifest.ts';
import { packageRoot } from '../package-root.ts';

/**
 * Of all that a bundle is made of and by, but its options: where it is the same, the same options
 * give the same bytes.
 *
 * @returns SHA-256, hexadecimal, of the sources of scripts, as they are written, and of the tools,
 * as they run here
 */
export async function sourceDigest(): Promise<string> {
  const sources = [join(packageRoot(), 'lib'), join(packageRoot(), 'targets', generic.name)];
  const tools = [import.meta.dirname, join(import.meta.dirname, '..', 'specialise')];
  const lists = await Promise.all([...sources, ...tools].map(filesOf));
  const texts = await Promise.all(lists.flat().map((path) => readFile(path)));
  const hash = createHash('sha256');
  for (const text of texts) hash.update(`${text.length} `).update(text);
  const load = createRequire(import.meta.url);
  for (const name of LARGE) hash.update(`${load(`${name}/package.json`).version} `);
  for (const name of SMALL) hash.update(await readFile(load.resolve(name)));
  return hash.digest('hex');
}

/** Libraries that go in by their version, and those that do by their text. */
const LARGE = ['esbuild', 'typescript'];
const SMALL = ['acorn', 'acorn-walk', 'astring'];

async function filesOf(folder: string): Promise<string[]> {
  const names = await readdir(folder);
  return names
    .filter((name) => /(?<!\.d)\.[jt]s$/.test(name))
    .sort()
    .map((name) => join(folder, name));
}
