import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Constants } from '../../lib/index.ts';
import { sourceDigest } from '../../targets/build/source-digest.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { packageRoot } from '../../targets/package-root.ts';
import { makeFolder } from '../file-error.ts';
import { writeWhole } from '../write-whole.ts';

/**
 * The minified core fitted for any constants, with those of nobody. Compiling it takes longer than
 * most replays, so the text is kept, under the digest of all that it is made of and by.
 *
 * @param place file it is kept in
 * @returns the script before its constants, and after them; see `constantsText`
 */
export async function laptopCore(place = PLACE): Promise<readonly [before: string, after: string]> {
  const digest = `// ${await sourceDigest()}\n`;
  const kept = await readFile(place, 'utf8').catch(() => '');
  let script = kept.slice(digest.length);
  if (!kept.startsWith(digest)) {
    script = await compile();
    // Where nothing can be kept it is compiled each time.
    await keep(place, digest + script).catch(() => undefined);
  }
  const [before, after, ...more] = script.split(MARK);
  if (before === undefined || after === undefined || more.length > 0) {
    throw new Error(`the core does not hold its constants once, as ${MARK}`);
  }
  return [before, after];
}

/** Constants as they stand in a minified script. */
export function constantsText({ vehicle, setups, crc }: Constants): string {
  return `{vehicle:[${vehicle}],setups:[${setups.map((setup) => `[${setup}]`)}],crc:${crc}}`;
}

const NOBODYS: Constants = { vehicle: [1], setups: [[1]], crc: 1 };
const MARK = constantsText(NOBODYS);
const PLACE = join(packageRoot(), 'dist', '.cache', 'laptop-core.js');

async function compile(): Promise<string> {
  // Loaded where it is used: the compiler alone takes half a second.
  const { buildBundle } = await import('../../targets/build/bundle.ts');
  const { code } = await buildBundle({
    ...{ target: generic, variant: 'core', constants: NOBODYS, setups: ['nobodys'] },
    minify: true,
  });
  return code.slice(code.indexOf('\n') + 1);
}

async function keep(place: string, text: string): Promise<void> {
  makeFolder(dirname(place));
  await writeWhole(place, text);
}
