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
  let program = '';

  beforeAll(() => {
    const options = ['--silent', '--ignore-scripts', '--pack-destination', folder];
    const packed = run('npm', ['pack', ...options], ROOT)
      .trim()
      .split('\n')
      .at(-1)!;
    mkdirSync(installed, { recursive: true });
    run('tar', ['-xzf', packed, '--strip-components=1', '-C', installed], folder);
    const manifest = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
    program = join(installed, manifest.bin.axlewright);
    for (const name of Object.keys(manifest.dependencies)) {
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
      const [name, ...args] = command.split(/\s+/);
      expect(name, command).toBe('axlewright');
      axlewright(args);
    }
    expect(existsSync(join(folder, 'compare.html'))).toBe(true);
    expect(existsSync(join(folder, 'my-garage/out/pipit-rally-hatch.js'))).toBe(true);
  });

  it('builds a readable script of that garage, and replays its run bit for bit', () => {
    const core = ['--setup', 'vinyl', '--variant', 'core', '--readable', '--out', 'readable.js'];
    const built = JSON.parse(axlewright(['build', '--garage', 'my-garage', ...core, '--json']));
    expect(existsSync(join(folder, built.file))).toBe(true);
    const run = ['my-garage/runs/hall-evening.csv', '--json', '--report', 'report.html'];
    const replayed = JSON.parse(axlewright(['replay', ...run]));
    expect(replayed.good).toBe(true);
    expect(replayed.result.verification.identical).toBe(true);
    expect(existsSync(join(folder, 'report.html'))).toBe(true);
  });

  it('offers its types and functions to a program', () => {
    const script = "import { defineSetup } from 'axlewright'; console.log(typeof defineSetup)";
    expect(run('node', ['--input-type=module', '-e', script], folder)).toBe('function\n');
  });

  function axlewright(args: string[]): string {
    return run('node', [program, ...args], folder);
  }
});

function run(command: string, args: string[], cwd: string): string {
  return execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}
