import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { packageRoot } from './package-root.ts';

/** Version of this package. */
export function packageVersion(): string {
  const text = readFileSync(join(packageRoot(), 'package.json'), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
