import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');

// What a user gets: the packed package, installed in a folder that holds nothing else.
describe('the npm package', () => {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-pack-'));
  let packed = '';

  beforeAll(() => {
    packed = run(
      'npm',
      ['pack', '--silent', '--ignore-scripts', '--pack-destination', folder],
      ROOT,
    )
      .trim()
      .split('\n')
      .at(-1)!;
    writeFileSync(join(folder, 'package.json'), '{ "private": true }');
    const quiet = ['--no-audit', '--no-fund', '--prefer-offline', '--silent'];
    run('npm', ['install', ...quiet, join(folder, packed)], folder);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('holds what it needs and no tests', () => {
    const installed = join(folder, 'node_modules/axlewright');
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

  it('makes a garage, builds it and replays its run there', () => {
    axlewright(['new', 'garage']);
    const built = JSON.parse(
      axlewright([
        'build',
        '--garage',
        'garage',
        '--setup',
        'vinyl',
        '--variant',
        'core',
        '--json',
      ]),
    );
    expect(existsSync(join(folder, built.file))).toBe(true);
    const runs = readdirSync(join(folder, 'garage/runs')).filter((name) => name.endsWith('.csv'));
    const report = ['--report', 'report.html'];
    const replayed = JSON.parse(
      axlewright(['replay', `garage/runs/${runs[0]}`, '--json', ...report]),
    );
    expect(replayed.good).toBe(true);
    expect(replayed.result.verification.identical).toBe(true);
    expect(existsSync(join(folder, 'report.html'))).toBe(true);
  });

  it('offers its types and functions to a program', () => {
    const program = "import { defineSetup } from 'axlewright'; console.log(typeof defineSetup)";
    expect(run('node', ['--input-type=module', '-e', program], folder)).toBe('function\n');
  });

  function axlewright(args: string[]): string {
    return run(join(folder, 'node_modules/.bin/axlewright'), args, folder);
  }
});

function run(command: string, args: string[], cwd: string): string {
  return execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}
