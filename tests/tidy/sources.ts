import { readdirSync } from 'node:fs';
import { join, normalize } from 'node:path';

/** The package's own folder. */
export const ROOT = normalize(join(import.meta.dirname, '../..'));

/** Paths, from ROOT, of all TypeScript sources in a folder of it. */
export function sourcesIn(room: string): string[] {
  return readdirSync(join(ROOT, room), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(room, name));
}
