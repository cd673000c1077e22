import { hasCommand, runCommand } from '../engines/command-engine.ts';

/** null if valgrind can be used here; else the reason why not. */
export function valgrindMissing(): string | null {
  return hasCommand('valgrind')
    ? null
    : 'the command `valgrind` is not there; on Debian: apt-get install valgrind';
}

/**
 * Instructions a command takes from start to end, by callgrind.
 *
 * @returns them, and what the command printed
 * @throws Error if the command fails
 */
export async function countInstructions(
  command: string,
  parameters: string[],
): Promise<{ count: number; printed: string }> {
  const tool = ['--tool=callgrind', '--callgrind-out-file=/dev/null', command];
  const { printed, said } = await mustRun([...tool, ...parameters]);
  return { count: numberAfter(said, /Collected : (\d+)/), printed };
}

/** What a command has left on the heap when it ends, and asked for in all; bytes, by memcheck. */
export async function countHeap(
  command: string,
  parameters: string[],
): Promise<{ inUse: number; allocated: number }> {
  const { said } = await mustRun(['--tool=memcheck', '--leak-check=no', command, ...parameters]);
  return {
    inUse: numberAfter(said, /in use at exit: ([\d,]+) bytes/),
    allocated: numberAfter(said, /frees, ([\d,]+) bytes allocated/),
  };
}

async function mustRun(parameters: string[]): Promise<{ printed: string; said: string }> {
  const result = await runCommand('valgrind', parameters);
  if (result.status !== 0) {
    throw new Error(`valgrind ${parameters.join(' ')}: ${result.said.slice(-500)}`);
  }
  return result;
}

function numberAfter(text: string, pattern: RegExp): number {
  const found = pattern.exec(text);
  if (found === null) throw new Error(`valgrind did not say ${pattern}: ${text.slice(-500)}`);
  return Number(found[1]!.replaceAll(',', ''));
}
