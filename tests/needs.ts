import { spawnSync } from 'node:child_process';

/**
 * Path of a command a test needs beyond Node and npm, or null if this machine has none: the test
 * then checks what it can without it. Where CI=true every check must run, so there it throws.
 *
 * @param command name of the command
 * @param install what to do to get it, such as `apt-get install valgrind`
 * @throws Error if CI=true and the command is missing
 */
export function need(command: string, install = `apt-get install ${command}`): string | null {
  const { status, stdout } = spawnSync('sh', ['-c', 'command -v "$0"', command], {
    encoding: 'utf8',
  });
  if (status === 0) return stdout.trim();
  const missing = `needs the command ${command}, which is missing: ${install}`;
  if (process.env.CI === 'true') throw new Error(missing);
  console.warn(`not checked here: ${missing}`);
  return null;
}
