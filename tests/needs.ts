import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/**
 * Finds a program that some tests need and that npm does not bring.
 * @returns its path; null when it is missing, after saying so: skip the tests that need it
 * @throws Error when it is missing and CI=true, where nothing may be skipped
 */
export function need(command: string): string | null {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    const path = join(folder, command);
    if (folder !== '' && isProgram(path)) return path;
  }
  const message = `"${command}" is not on the PATH; it is needed by some tests`;
  if (process.env.CI === 'true') throw new Error(`${message}. Install it (.ci/run does).`);
  process.stderr.write(`${message}, which are skipped.\n`);
  return null;
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
