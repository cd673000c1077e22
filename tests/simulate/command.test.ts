import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { runHere } from '../cli/said.ts';
import { HATCH } from './drives.ts';

const folder = mkdtempSync(join(tmpdir(), 'axlewright-simulate-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const simulate = (...args: string[]) => runHere(['simulate', ...args]);

describe('axlewright simulate', () => {
  it('says first how the car handles, by what number, then figures and limits', async () => {
    const run = join(folder, 'run.csv');
    const report = join(folder, 'report.html');
    const args = ['--garage', HATCH, '--setup', 'vinyl', '--out', run, '--report', report];
    const { code, out } = await simulate(...args);
    expect(code).toBe(0);
    const lines = out.split('\n');
    expect(lines[0]).toBe('Pipit rally hatch, launch-circle on sports-hall vinyl, seed 1');
    expect(lines[1]).toMatch(/^ {2}vinyl {2}[A-Z][^.]*\d.*\.$/);
    expect(out).toMatch(/Path radius over geometric radius +\d/);
    expect(out).toMatch(/held +S1 S2 S5/);
    expect(out).toMatch(/The bundle for the hub computes all \d+ ticks bit for bit alike\./);
    expect(out).toContain(`run: ${run}`);
    expect(existsSync(`${run}-metadata.json`)).toBe(true);
    expect(existsSync(report)).toBe(true);
  });

  it('--json is one JSON value, the same for the same seed', async () => {
    const args = ['--garage', HATCH, '--setup', 'vinyl', '--seed', '5', '--json'];
    const first = await simulate(...args);
    const again = await simulate(...args);
    expect(again.out).toBe(first.out);
    const value = JSON.parse(first.out);
    expect(value).toMatchObject({ manoeuvre: 'launch-circle', seed: 5, good: true });
    expect(value.drives[0].verdict.kind).toMatch(/understeer|neutral|oversteer|spin/);
    expect(value.drives[0].metrics[0]).toMatchObject({ id: 'radiusRatio' });
    expect(value.drives[0].limits).toHaveLength(17);
  });

  it('--list names manoeuvres, faults, surfaces and setups', async () => {
    const { code, out } = await simulate('--garage', HATCH, '--list');
    expect(code).toBe(0);
    for (const word of [
      'launch-circle',
      'lane-change',
      'jammedWheel@1.5:rearRight',
      'low-pile carpet',
    ])
      expect(out).toContain(word);
  });

  it('leads with what the manoeuvre is for', async () => {
    const headline = async (...args: string[]) => {
      const { out } = await simulate('--garage', HATCH, '--json', '--manoeuvre', ...args);
      return JSON.parse(out).drives[0].headline;
    };
    expect(await headline('slalom')).toMatch(/^Gets through with 0\.\d\d m to spare\. Neutral/);
    const lost = ['lane-change', '--fault', 'lostWheel@1:frontLeft'];
    expect(await headline(...lost)).toMatch(/^Leaves its course by 0\.\d\d m\. Understeers/);
    expect(await headline('dropout')).toMatch(/^Stopping distance: /);
    expect(await headline('hill')).toMatch(/^[^:]*roll[^:]*: /i);
  });

  it('says which setup drives on a floor it is not meant for', async () => {
    const both = ['--garage', HATCH, '--setup', 'vinyl', 'carpet'];
    const told = /note carpet is meant for low-pile carpet, here it drives on sports-hall vinyl\./;
    expect((await simulate(...both)).out).toMatch(told);
    expect((await simulate(...both, '--surface', 'sports-hall vinyl')).out).not.toMatch(told);
  });

  it('says of a jam that nothing guards the motors of a car without current sensors', async () => {
    const told = /note .* has no current sensors: no safety limit guards a motor that is held/;
    const jam = ['--manoeuvre', 'jam'];
    expect((await simulate('--garage', demoGarage('coupe'), ...jam)).out).toMatch(told);
    expect((await simulate('--garage', HATCH, ...jam)).out).not.toMatch(told);
  });

  it('says of limits that do not apply to a car why', async () => {
    const { out } = await simulate('--garage', demoGarage('coupe'));
    expect(out).toMatch(/does not apply +S8: Without current sensors nothing bounds current/);
    expect(out).not.toMatch(/not tested .*S8/);
    expect((await simulate('--garage', HATCH)).out).not.toMatch(/does not apply +S8/);
  });

  it('says which setup does not turn on the spot', async () => {
    const pivot = ['--garage', demoGarage('forwarder'), '--manoeuvre', 'pivot-turn', '--setup'];
    const told = 'note concrete does not turn on the spot: its split.pivotPercent is 0.';
    expect((await simulate(...pivot, 'concrete')).out).toContain(told);
    expect((await simulate(...pivot, 'vinyl')).out).not.toContain('split.pivotPercent');
  });

  it('bad input: a clear error for each thing, exit code 2, no stack trace', async () => {
    const faults = await simulate('--garage', HATCH, '--fault', 'jamedWheel@1', 'linkLost@x');
    expect(faults.code).toBe(2);
    expect(faults.error).toMatch(/--fault jamedWheel@1: .*Did you mean "jammedWheel"\?/);
    expect(faults.error).toMatch(/--fault linkLost@x: found the time "x"/);
    expect(faults.error).not.toMatch(/^\s+at /m);
    const names = ['--manoeuvre', 'lanch-circle', '--setup', 'vynil', 'carpt', '--surface', 'ice'];
    const { error } = await simulate('--garage', HATCH, ...names);
    expect(error.trimEnd().split('\n')).toEqual([
      expect.stringContaining('--manoeuvre: found "lanch-circle"'),
      expect.stringContaining('setup: found "vynil"'),
      expect.stringContaining('setup: found "carpt"'),
      expect.stringContaining('--surface: found "ice"'),
    ]);
    const seed = await simulate('--garage', HATCH, '--seed', '-1');
    expect(seed.code).toBe(2);
    expect(seed.error).toContain('expected a whole number from 0 to 2147483647');
  });
});
