import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createGarage } from '../../harness/demo/create-garage.ts';
import { MANOEUVRES } from '../../harness/manoeuvres/manoeuvres.ts';
import { coreBundle } from '../../harness/replay/core-bundle.ts';
import { replayRun } from '../../harness/replay/replay-run.ts';
import { readRunMetadata } from '../../harness/runs/read-run-metadata.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { driveSetup } from '../../harness/simulate/drive-setup.ts';
import { planInGarage, planSimulation } from '../../harness/simulate/plan-simulation.ts';
import {
  type RunSimulationOptions,
  runSimulation,
  type SimulationOutcome,
} from '../../harness/simulate/run-simulation.ts';
import { simulationReport } from '../../harness/simulate/simulation-report.ts';
import { HATCH, TRACKED } from './drives.ts';

const folder = mkdtempSync(join(tmpdir(), 'axlewright-simulate-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(options: Partial<RunSimulationOptions> = {}): Promise<SimulationOutcome> {
  return runSimulation({
    garage: HATCH,
    setup: ['vinyl'],
    engine: 'node',
    overwrite: false,
    ...options,
  });
}

test.each(['vinyl', 'carpet'])(
  'a jam of one side is no lost drive of the other, on %s',
  async (name) => {
    const { drives } = await run({ setup: [name], manoeuvre: 'jam' });
    const texts = drives[0]!.findings.map(({ text }) => text).join(' ');
    expect(texts).toMatch(/right motor was held fast/);
    expect(texts).not.toMatch(/without load/);
  },
);

test('setups whose names a file cannot tell apart get a run each', async () => {
  const garage = join(folder, 'alike');
  createGarage(garage);
  for (const name of ['Vinyl', 'паркет', 'ковёр']) {
    const text = readFileSync(join(garage, 'setups/vinyl.ts'), 'utf8');
    const own = text.replace("name: 'vinyl'", `name: '${name}'`);
    writeFileSync(join(garage, `setups/${name === 'Vinyl' ? 'other' : name}.ts`), own);
  }
  for (const [setup, names] of [
    [
      ['vinyl', 'Vinyl', 'carpet'],
      ['1-vinyl', '2-vinyl', '3-carpet'],
    ],
    [
      ['паркет', 'ковёр'],
      ['1-unnamed', '2-unnamed'],
    ],
  ]) {
    const out = join(folder, 'r.csv');
    const { runs } = await run({ garage, setup: setup!, out, manoeuvre: 'brake' });
    expect(runs).toEqual(names!.map((name) => join(folder, `r-${name}.csv`)));
  }
});

describe('a simulated run', () => {
  let outcome: SimulationOutcome;
  const out = join(folder, 'drive.csv');
  const report = join(folder, 'drive.html');

  beforeAll(async () => {
    outcome = await run({ out, report, fault: ['linkLost@2+0.5'], seed: 9 });
  });

  test('replays bit for bit in the bundle, on Node and on QuickJS', async () => {
    for (const engine of ['node', 'quickjs'] as const) {
      const { result } = await replayRun(out, {
        mode: 'strict',
        repairs: [],
        verify: true,
        engine,
      });
      expect(result.verification).toMatchObject({ identical: true });
      expect(result.ticks).toBe(outcome.drives[0]!.result.rows.count);
      expect(result.verification!.columns).toContain('drive_left_permille');
    }
  });

  test('says in its metadata that it was simulated, with what, and from power-up', async () => {
    const metadata = await readRunMetadata(out);
    expect(metadata).toMatchObject({
      vehicle: outcome.plan.vehicle,
      setups: ['vinyl'],
      surface: 'sports-hall vinyl',
      seed: '9',
      startsAtPowerUp: true,
      constants: outcome.plan.setups[0]!.constants,
    });
    expect(metadata!.origin).toMatch(/^Simulated, not driven: manoeuvre launch-circle/);
    expect(metadata!.notes).toEqual([
      'No frame of the transmitter arrives, from 2.00 s on until 2.50 s.',
    ]);
  });

  test('a changed output is found by the bundle in the loop, too', async () => {
    const torn = join(mkdtempSync(join(folder, 'torn-')), 'drive.csv');
    const lines = readFileSync(out, 'utf8').split('\r\n');
    const cells = lines[200]!.split(',');
    const at = lines[0]!.split(',').indexOf('cut_permille');
    cells[at] = String(Number(cells[at]) + 1);
    lines[200] = cells.join(',');
    writeFileSync(torn, lines.join('\r\n'));
    writeFileSync(`${torn}-metadata.json`, readFileSync(`${out}-metadata.json`));
    const { result } = await replayRun(torn, {
      mode: 'strict',
      repairs: [],
      verify: true,
      engine: 'node',
    });
    expect(result.verification!.first).toMatchObject({ line: 201, stage: 'split' });
  });

  test('is not written over without being asked', async () => {
    const driven: string[] = [];
    const onDrive = (name: string) => driven.push(name);
    await expect(run({ out, onDrive })).rejects.toThrow(/drive\.csv/);
    await expect(run({ report: out, onDrive })).rejects.toThrow(/drive\.csv: .*no report/);
    await expect(run({ report: 'nowhere/r.html', onDrive })).rejects.toThrow(/no such folder/);
    expect(driven).toEqual([]);
    await expect(run({ out, overwrite: true, seed: 9 })).resolves.toMatchObject({ good: true });
  });

  test('every safety limit that was put to the test held, and the findings tell the loss', () => {
    const [drive] = outcome.drives;
    expect(outcome.good).toBe(true);
    expect(drive!.limits).toHaveLength(17);
    expect(drive!.limits.find(({ id }) => id === 'S4')!.held).toBe(true);
    const texts = drive!.findings
      .map(({ atS, text }) => `${atS.toFixed(1)} ${text}`)
      .filter((text) => !text.includes('Yaw assist'));
    expect(texts[0]).toBe('2.0 No frame of the transmitter arrives, from 2.00 s on until 2.50 s.');
    expect(texts[1]).toMatch(/^2\.3 Controlled stop: the signal was lost/);
  });

  test('the report is one file with path, figures and charts', () => {
    const html = readFileSync(report, 'utf8');
    expect(html).toContain('<svg class="floor"');
    expect(html).toContain('Figures of the drive');
    for (const title of ['Speed over ground', 'Sideslip', 'Balance', 'Winding temperatures'])
      expect(html).toContain(title);
    expect(html).not.toMatch(/\b(src|href)="http/);
  });
});

describe('several setups', () => {
  test('drive the same ticks, share every panel, and each gets a run of its own', async () => {
    const out = join(folder, 'both.csv');
    const outcome = await run({ setup: ['vinyl', 'carpet'], surface: 'sports-hall vinyl', out });
    expect(outcome.runs).toEqual([join(folder, 'both-vinyl.csv'), join(folder, 'both-carpet.csv')]);
    expect(outcome.runs.every((path) => existsSync(path))).toBe(true);
    const [a, b] = outcome.drives;
    expect([...a!.result.trace.t]).toEqual([...b!.result.trace.t]);
    const data = simulationReport(outcome.plan, outcome.drives, outcome.facts);
    expect(data.overlay).toEqual(['vinyl', 'carpet']);
    const { traces } = data.panels.find(({ title }) => title === 'Motor commands')!;
    expect(traces.map(({ label, style, hue }) => [label, style, hue])).toEqual([
      ['left, vinyl', 'solid', 0],
      ['left, carpet', 'dashed', 0],
      ['right, vinyl', 'solid', 1],
      ['right, carpet', 'dashed', 1],
    ]);
    expect(data.path!.drives.map(({ style, hue }) => [style, hue])).toEqual([
      ['solid', 0],
      ['dashed', 1],
    ]);
    expect(data.metrics!.rows[0]!.values).toHaveLength(2);
    expect(data.handling!.map(({ name }) => name)).toEqual(['vinyl', 'carpet']);
  });
});

describe('a car that tips over', () => {
  test('ends early with a verdict, and its data are written and replay', async () => {
    const garage = join(folder, 'tall');
    createGarage(garage, 'hatch');
    const file = join(garage, 'vehicle.ts');
    writeFileSync(file, readFileSync(file, 'utf8').replace('cgHeightMm: 38', 'cgHeightMm: 190'));
    const out = join(folder, 'tall.csv');
    const report = join(folder, 'tall.html');
    const outcome = await run({ garage, setup: ['carpet'], out, report });
    const [drive] = outcome.drives;
    expect(outcome.good).toBe(false);
    expect(drive!.held).toBe(true);
    expect(drive!.result.divergence!.cause).toContain('tips over');
    expect(drive!.findings.at(-1)!.text).toMatch(/^The drive ended here: the inner wheels/);
    expect(readFileSync(report, 'utf8')).toContain('Ended early');
    const { result } = await replayRun(out, {
      mode: 'strict',
      repairs: [],
      verify: true,
      engine: 'node',
    });
    expect(result.verification).toMatchObject({ identical: true });
    expect((await readRunMetadata(out))!.notes![0]).toMatch(/^Ended at .*tips over/);
  });
});

describe('what is simulated if little is said', () => {
  test('the first setup meant for the surface; the surface the setup is meant for', async () => {
    const bySurface = await planSimulation({ garage: HATCH, surface: 'damp concrete' });
    expect(bySurface.setups.map(({ name }) => name)).toEqual(['concrete']);
    const bySetup = await planSimulation({ garage: HATCH, setup: ['vinyl'] });
    expect(bySetup.surface).toBe('sports-hall vinyl');
    expect(bySetup.manoeuvre.name).toBe('launch-circle');
  });

  test('a slash splits the floor along the way', async () => {
    const { plant } = await planSimulation({
      garage: HATCH,
      surface: 'low-pile carpet / damp concrete',
    });
    const [left] = plant.ground.patches;
    expect(left).toMatchObject({ fromY: 0, toY: Infinity });
    expect(left!.material.name).toBe('low-pile carpet');
    expect(plant.ground.base.name).toBe('damp concrete');
  });

  test('a variation changes the vehicle, not what core and manoeuvre know of it', async () => {
    const garage = await loadGarage(HATCH);
    const wishes = { setup: ['vinyl'], manoeuvre: 'launch-circle' };
    const asIs = planInGarage(garage, wishes);
    const variation = { motors: { constant: 0.85, startC: 80 }, battery: { voltage: 0.9 } };
    const varied = planInGarage(garage, { ...wishes, variation });
    expect(varied.setups).toEqual(asIs.setups);
    expect(varied.car).toEqual(asIs.car);
    const { plant } = asIs;
    expect(varied.plant.motors[0]!.constant).toBeCloseTo(0.85 * plant.motors[0]!.constant, 12);
    expect(varied.plant.motors[1]!.heat.startC).toBe(80);
    expect(varied.plant.battery.openCircuit[0]).toBeCloseTo(
      0.9 * plant.battery.openCircuit[0]!,
      12,
    );
  });

  test.each([
    [{ manoeuvre: 'slalm' }, /Did you mean "slalom"\?/],
    [{ surface: 'sports-hall vynil' }, /--surface: found .*Did you mean "sports-hall vinyl"\?/],
    [{ setup: ['vinil'] }, /Did you mean "vinyl"\?/],
    [{ setup: ['vinyl', 'vinyl'] }, /found "vinyl" twice/],
    [{ setup: ['a', 'b', 'c', 'd'] }, /found 4 setups, expected at most 3/],
    [{ manoeuvre: 'pivot-turn' }, /Only tracks and skid-steered sides.*--list/],
    [{ surface: 'a / b / c' }, /found 3 floors, expected one, or two/],
    [{ garage: 'nowhere' }, /nowhere: is not a garage folder/],
  ])('%j is refused with a cure', async (wishes, message) => {
    await expect(planSimulation({ garage: HATCH, ...wishes })).rejects.toThrow(message);
  });

  test('a vehicle no step can follow is refused in the words of vehicle.ts', async () => {
    const garage = join(folder, 'light');
    createGarage(garage, 'hatch');
    const file = join(garage, 'vehicle.ts');
    const light = 'plant: { wheelInertiaGCm2: 0.0001 },\n  wheelRadiusMm';
    writeFileSync(file, readFileSync(file, 'utf8').replace('wheelRadiusMm', light));
    await expect(planSimulation({ garage })).rejects.toThrow(
      /vehicle\.ts: plant\.wheelInertiaGCm2: needs steps shorter than/,
    );
  });
});

describe('every manoeuvre', () => {
  let bundle = '';
  beforeAll(async () => {
    const { setups } = await planSimulation({ garage: HATCH });
    bundle = await coreBundle(setups[0]!.constants, ['any']);
  });

  test.each(MANOEUVRES.map(({ name }) => name))(
    '%s runs to its end with a verdict, figures and every limit held',
    async (manoeuvre) => {
      const garage = manoeuvre === 'pivot-turn' ? TRACKED : HATCH;
      const plan = await planSimulation({ garage, setup: ['vinyl'], manoeuvre });
      const drive = await driveSetup(plan, 0, bundle, 'node');
      expect(drive.good).toBe(true);
      expect(drive.verdict.text).toMatch(/^[A-Z].*\.$/);
      expect(drive.metrics.length).toBeGreaterThan(3);
      expect(drive.result.trace.x.every(Number.isFinite)).toBe(true);
      const { energies } = drive.result;
      expect(Math.abs(energies.residual)).toBeLessThan(0.005 * Math.max(energies.supplied, 1));
      const data = simulationReport(plan, [drive], []);
      expect(data.path!.drives[0]!.x).toHaveLength(drive.result.trace.count);
    },
  );
});
