import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * Folder of this package, which holds the TypeScript sources of `lib` and `targets`; the same
 * whether this module runs as source or compiled.
 */
export function packageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) {
    const parent = dirname(folder);
    if (parent === folder) throw new Error('no package.json above axlewright/targets');
    folder = parent;
  }
  return folder;
}
