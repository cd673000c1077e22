import { spawnSync } from 'node:child_process';
import {
  closeSync,
  existsSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { MAIN, runHere, start } from './said.ts';

const DEMO_RUN = join(demoGarage('hatch'), 'runs/hall-evening.csv');

const HATCH = demoGarage('hatch');

const folder = mkdtempSync(join(tmpdir(), 'axlewright-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const axlewright = (args: string[], env: Record<string, string> = {}) => start(args, folder, env);

describe('axlewright', () => {
  it('--help names every command and the exit codes', async () => {
    const { code, out } = await axlewright(['--help']);
    expect(code).toBe(0);
    for (const word of [
      'new',
      'fields',
      'build',
      'replay',
      'import',
      'unpack',
      'demo',
      'Exit codes',
    ]) {
      expect(out).toContain(word);
    }
  });

  it('a mistyped command is answered with the nearest one and exit code 2', async () => {
    const { code, error } = await axlewright(['replya']);
    expect(code).toBe(2);
    expect(error).toContain('replay');
  });

  it.each([
    [['replay', 'nowhere.csv'], /nowhere\.csv: there is no such file/],
    [['replay', demoGarage('hatch')], /is a folder, expected a run.*in it: .*hall-evening\.csv\./],
    [['replay', DEMO_RUN, '--garage', 'x'], /--garage x: names a garage, but .* Add --setup NAME/],
    [['build', '--garage', 'nowhere'], /nowhere: is not a garage folder/],
    [['build', '--garage', demoGarage('coupe'), '--out', '.'], /--out: is a folder, expected/],
    [['build', '--garage', demoGarage('coupe'), '--out', MAIN], /is no script of ours; nothing/],
    [['import', DEMO_RUN, 'map.json', DEMO_RUN, '--overwrite'], /would be overwritten by the run/],
    [['fields', 'wibble'], /no field's path holds "wibble"/],
    [['demo', '--out', MAIN], /main\.js: --out: is there already and is no report/],
    [['replay', DEMO_RUN, '--report', ''], /--report: expected the name of a file/],
    [['replay', DEMO_RUN, '--save', ''], /expected the name of a file/],
    [
      ['replay', DEMO_RUN, '--report', 'no/x.html'],
      /no\/x\.html: --report: there is no such folder/,
    ],
    [['simulate', '--garage', HATCH, '--out', MAIN, '--overwrite'], /--out: .* is no run; nothing/],
    [
      ['simulate', '--garage', HATCH, '--out', 'a', '--report', 'a'],
      /for a run and for the report/,
    ],
    [['unpack', 'nowhere.bin', 'run.csv'], /nowhere\.bin: there is no such file/],
    [['import', 'a.csv', 'b.json', 'c.csv'], /b\.json/],
  ])('%j: a clear error, exit code 2, no stack trace', async (args, message) => {
    const { code, error } = await runHere(args);
    expect(code).toBe(2);
    expect(error).toMatch(message);
    expect(error).not.toMatch(/^\s+at /m);
  });

  it('--json: what is wrong with the input is JSON, too', async () => {
    const { code, out } = await runHere(['unpack', 'nowhere.bin', 'run.csv', '--json']);
    expect(code).toBe(2);
    expect(JSON.parse(out)).toMatchObject({ problems: [{ file: 'nowhere.bin' }] });
  });

  it('--json: so is what is wrong with the command itself', async () => {
    for (const wrong of [['replay', '--bogus'], ['replay'], ['simulate', '--seed', 'x']]) {
      const { code, out, error } = await runHere([...wrong, '--json']);
      expect(code).toBe(2);
      expect(JSON.parse(out).problems).toHaveLength(1);
      expect(error).not.toBe('');
    }
  });

  it.skipIf(!existsSync('/dev/full'))('an output that cannot be written is 3, not 1', async () => {
    const full = openSync('/dev/full', 'w');
    const said = spawnSync(process.execPath, [MAIN, '--help'], { stdio: ['ignore', full, 'pipe'] });
    closeSync(full);
    expect(said.status).toBe(3);
    expect(String(said.stderr)).toBe('error the output cannot be written (ENOSPC).\n');
  });

  it('--debug shows where the error arose', async () => {
    const { code, error } = await axlewright(['replay', 'nowhere.csv', '--debug']);
    expect(code).toBe(2);
    expect(error).toMatch(/^\s+at /m);
  });

  it('prints no colour where NO_COLOR is set, and some where it is forced', async () => {
    const grey = await axlewright(['new', 'grey'], { NO_COLOR: '1' });
    const coloured = await axlewright(['new', 'coloured'], { FORCE_COLOR: '1', NO_COLOR: '' });
    expect(grey.code + coloured.code).toBe(0);
    expect(grey.out).not.toContain('\u001b[');
    expect(coloured.out).toContain('\u001b[');
  });

  it('replay --json is one JSON value with the verdicts', async () => {
    const { code, out } = await runHere(['replay', DEMO_RUN, '--json']);
    const outcome = JSON.parse(out);
    expect(code).toBe(0);
    expect(outcome.good).toBe(true);
    expect(outcome.result.limits).toHaveLength(17);
    expect(outcome.result.verification.identical).toBe(true);
    for (const { atS } of outcome.result.findings) expect(`${atS}`).toMatch(/^\d+(\.\d{1,6})?$/);
  });

  it('a run that does not verify gives exit code 1', async () => {
    const run = join(folder, 'hall-evening.csv');
    const metadata = readFileSync(`${DEMO_RUN}-metadata.json`, 'utf8');
    const text = readFileSync(DEMO_RUN, 'utf8').replace(/(\r\n2040,)(\d+)/, '$11600');
    writeFileSync(run, text);
    writeFileSync(`${run}-metadata.json`, metadata);
    const { code, out } = await runHere(['replay', run]);
    expect(code).toBe(1);
    expect(out).toMatch(/First difference at 2\.\d+ s, line 206, in shaping/);
  });

  it('a run with a row left out says why it does not verify', async () => {
    const run = join(mkdtempSync(join(folder, 'gap-')), 'hall-evening.csv');
    const text = readFileSync(DEMO_RUN, 'utf8').replace(/(\r\n2040,)(\d+)/, '$1x');
    writeFileSync(run, text);
    writeFileSync(`${run}-metadata.json`, readFileSync(`${DEMO_RUN}-metadata.json`, 'utf8'));
    const { code, out } = await runHere(['replay', run, '--lenient']);
    expect(code).toBe(1);
    expect(out).toMatch(/not recompute what was recorded: of the file \d parts? w.* left out/);
  });

  it('new, then new again: nothing is overwritten', async () => {
    expect((await axlewright(['new', 'mine', '--from', 'coupe'])).code).toBe(0);
    const again = await axlewright(['new', 'mine']);
    expect(again.code).toBe(2);
    expect(again.error).toMatch(/mine: is not empty; nothing was written/);
  });

  it('build writes a bundle that says what it is', async () => {
    // It has no gyro; that of the hatch is built by the README's commands, see tests/tidy.
    await axlewright(['new', 'car', '--from', 'coupe']);
    const args = ['build', '--garage', join(folder, 'car'), '--setup', 'vinyl', 'carpet'];
    const { code, out } = await runHere(args);
    expect(code).toBe(0);
    expect(out).toMatch(/0 = vinyl, 1 = carpet/);
    const file = /built (\S+):/.exec(out)![1]!;
    expect(readFileSync(file, 'utf8')).toMatch(/^\/\/ axlewright .*vinyl,carpet/);
  });

  it('fields narrows down, for people and machines', async () => {
    const { out } = await axlewright(['fields', 'cutCurve']);
    expect(out).toMatch(/split\.cutCurve/);
    const fields = JSON.parse((await axlewright(['fields', 'split', '--json'])).out);
    expect(fields.length).toBeGreaterThan(5);
  });
});
