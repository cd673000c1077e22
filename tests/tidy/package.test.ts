import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { codeBlocks } from './code-blocks.ts';

const ROOT = join(import.meta.dirname, '../..');

// What a user gets: the packed package in a folder that holds nothing else, with the libraries it
// asks for. They are linked, not fetched: tests need no network.
describe('the npm package', () => {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-pack-'));
  const installed = join(folder, 'node_modules/axlewright');

  beforeAll(() => {
    const options = ['--silent', '--ignore-scripts', '--pack-destination', folder];
    const packed = run('npm', ['pack', ...options], ROOT)
      .trim()
      .split('\n')
      .at(-1)!;
    mkdirSync(installed, { recursive: true });
    run('tar', ['-xzf', packed, '--strip-components=1', '-C', installed], folder);
    const { dependencies } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
    for (const name of Object.keys(dependencies)) {
      const link = join(folder, 'node_modules', name);
      mkdirSync(dirname(link), { recursive: true });
      symlinkSync(join(ROOT, 'node_modules', name), link, 'dir');
    }
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('holds what it needs and no tests', () => {
    const names = readdirSync(installed);
    expect(names).toEqual(
      expect.arrayContaining(['dist', 'lib', 'targets', 'README.md', 'LICENSE']),
    );
    expect(names).not.toContain('tests');
    expect(existsSync(join(installed, 'dist/tests'))).toBe(false);
    expect(existsSync(join(installed, 'dist/.cache/bundles'))).toBe(false);
  });

  it('answers --help with its commands', () => {
    const help = axlewright(['--help']);
    for (const command of ['new', 'build', 'replay', 'import', 'fields']) {
      expect(help).toContain(command);
    }
  });

  it('runs the commands of the README in their order, in an empty folder', () => {
    const readme = readFileSync(join(ROOT, 'README.md'), 'utf8');
    const commands = codeBlocks(readme, 'sh').flatMap((block) => block.trim().split('\n'));
    expect(commands.length).toBeGreaterThan(3);
    for (const command of commands) {
      const [program, ...args] = command.split(/\s+/);
      expect(program, command).toBe('axlewright');
      axlewright(args);
    }
    expect(existsSync(join(folder, 'compare.html'))).toBe(true);
    expect(existsSync(join(folder, 'my-garage/out/pipit-rally-hatch.js'))).toBe(true);
  });

  it('replays the run of a new garage, bit for bit', () => {
    const replayed = JSON.parse(
      axlewright(['replay', 'my-garage/runs/hall-evening.csv', '--json']),
    );
    expect(replayed.good).toBe(true);
    expect(replayed.result.verification.identical).toBe(true);
  });

  it('offers its types and functions to a program', () => {
    const program = "import { defineSetup } from 'axlewright'; console.log(typeof defineSetup)";
    expect(run('node', ['--input-type=module', '-e', program], folder)).toBe('function\n');
  });

  function axlewright(args: string[]): string {
    const { bin } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
    return run('node', [join(installed, bin.axlewright), ...args], folder);
  }
});

function run(command: string, args: string[], cwd: string): string {
  return execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}
