import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { vi } from 'vitest';
import { runCli } from '../../harness/cli/run-cli.ts';

/** What a command said, and its exit code. */
export interface Said {
  code: number;
  out: string;
  error: string;
}

/** The built program. */
export const MAIN = join(import.meta.dirname, '../../dist/harness/cli/main.js');

/** Runs the built program, as a user does. */
export function start(args: string[], cwd: string, env: Record<string, string>): Promise<Said> {
  const options = { cwd, env: { ...process.env, ...env } };
  return new Promise((resolve) => {
    execFile(process.execPath, [MAIN, ...args], options, (failure, out, error) => {
      resolve({ code: failure === null ? 0 : Number(failure.code), out, error });
    });
  });
}

/** The same command in this process, which has its modules loaded already. One at a time. */
export async function runHere(args: string[]): Promise<Said> {
  const said = { out: '', error: '' };
  const into = (name: 'out' | 'error') => (text: string | Uint8Array) => {
    said[name] += String(text);
    return true;
  };
  const spies = [
    vi.spyOn(process.stdout, 'write').mockImplementation(into('out')),
    vi.spyOn(process.stderr, 'write').mockImplementation(into('error')),
  ];
  try {
    return { code: await runCli(args), ...said };
  } finally {
    for (const spy of spies) spy.mockRestore();
  }
}
