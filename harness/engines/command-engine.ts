import { spawn, spawnSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Engine, EngineError } from './engine.ts';

/** Duktape, by its command `duk`. */
export const duktapeEngine = commandEngine('duktape', 'duk', 'duktape');

/** MuJS, by its command `mujs`. */
export const mujsEngine = commandEngine('mujs', 'mujs', 'mujs');

/** An engine whose command takes a script file and has a global `print`. */
function commandEngine(name: string, command: string, debianPackage: string): Engine {
  return {
    name,
    available: () =>
      hasCommand(command)
        ? null
        : `the command \`${command}\` is not there; on Debian: apt-get install ${debianPackage}`,
    run: (script) =>
      withScriptFile(script, async (file) => {
        const { status, printed, said } = await runCommand(command, [file]);
        if (status !== 0) throw new EngineError(name, said || `ended with status ${status}`);
        return printed;
      }),
  };
}

/** true if a command of this name can be started. */
export function hasCommand(command: string): boolean {
  const { error } = spawnSync(command, [], { input: '', stdio: ['pipe', 'ignore', 'ignore'] });
  return error === undefined;
}

/** Puts the script into a file of its own for as long as `use` takes. */
export async function withScriptFile<T>(
  script: string,
  use: (file: string) => Promise<T>,
): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'axlewright-'));
  try {
    const file = join(folder, 'script.js');
    await writeFile(file, script);
    return await use(file);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** How a command ended and what it wrote. */
export interface CommandResult {
  /** Exit status; null = ended by a signal. */
  status: number | null;
  /** Standard output. */
  printed: string;
  /** Standard error. */
  said: string;
}

/** Runs a command to its end, or to the limit of ten minutes. */
export function runCommand(command: string, parameters: string[]): Promise<CommandResult> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, parameters, {
      stdio: ['ignore', 'pipe', 'pipe'],
      timeout: 600_000,
    });
    let printed = '';
    let said = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      printed += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, printed, said }));
  });
}
