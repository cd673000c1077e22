import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * Folder of this package, whether it runs from source or from dist.
 *
 * @throws Error if the package was taken apart
 */
export function packageRoot(): string {
  const here = dirname(fileURLToPath(import.meta.url));
  for (let dir = here; ; dir = dirname(dir)) {
    if (packageName(dir) === 'axlewright') return dir;
    if (dir === dirname(dir)) throw new Error(`no package.json of axlewright above ${here}`);
  }
}

function packageName(dir: string): unknown {
  let text: string;
  try {
    text = readFileSync(join(dir, 'package.json'), 'utf8');
  } catch {
    return undefined;
  }
  const manifest: { name?: unknown } = JSON.parse(text);
  return manifest.name;
}
