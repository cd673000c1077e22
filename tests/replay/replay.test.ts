import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { hallEvening } from '../../harness/demo/drives/hall-evening.ts';
import { openDay } from '../../harness/demo/drives/open-day.ts';
import { demoRunPath, recordRun } from '../../harness/demo/record-run.ts';
import { UserError } from '../../harness/problems.ts';
import { planReplay } from '../../harness/replay/replay-plan.ts';
import { type ReplayRunOptions, replayFacts, replayRun } from '../../harness/replay/replay-run.ts';
import { verdictText } from '../../harness/replay/verdict-text.ts';
import { metadataPath } from '../../harness/runs/run-metadata.ts';
import { Flag, State } from '../../lib/index.ts';

const HALL_FLOOR = join(import.meta.dirname, '../fixtures/runs/hall-floor.csv');
const HATCH = demoGarage('hatch');
const DEMO_RUN = join(HATCH, 'runs/hall-evening.csv');
const PLAIN: ReplayRunOptions = { mode: 'strict', repairs: [], engine: 'node' };

const folder = mkdtempSync(join(tmpdir(), 'axlewright-replay-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a run of another core', () => {
  it('replays with no lost row, and every limit holds', async () => {
    const outcome = await replayRun(HALL_FLOOR, { ...PLAIN, garage: HATCH, setup: ['vinyl'] });
    expect(outcome.result.ticks).toBe(5973);
    expect(outcome.lossCount).toBe(0);
    expect(outcome.result.held).toBe(true);
    expect(outcome.result.verification).toBeUndefined();
  });

  // The signal is lost from 40.0 s on and comes back at 41.2 s with the stick still deflected.
  it('its dropout leads to a controlled stop in time and no motion until re-armed', async () => {
    const saved = join(folder, 'dropout.csv');
    const options = { ...PLAIN, garage: HATCH, setup: ['vinyl'], save: saved };
    const { plan } = await replayRun(HALL_FLOOR, options);
    const hold = 300;
    const stop = 100;
    expect(plan.constants.setups[0]![12]).toBe(hold);
    expect(plan.constants.setups[0]![18]).toBe((1000 * 1000) / stop);
    const rows = table(saved);
    const lastFresh = rows.findLast((row) => row.time_ms! < 40_100 && row.input_age_ms! < 20)!;
    const deadline = lastFresh.time_ms! + hold + stop;
    const after = rows.filter((row) => row.time_ms! > deadline);
    const armed = after.find((row) => row.state === State.READY)!;
    const between = after.filter((row) => row.time_ms! < armed.time_ms!);
    expect(between.length).toBeGreaterThan(100);
    for (const row of between) {
      expect([row.drive_left_permille, row.drive_right_permille]).toEqual([0, 0]);
    }
    const back = rows.find((row) => row.time_ms! > 41_300)!;
    expect(back.input_age_ms).toBeLessThan(20);
    expect(back.throttle_us).toBeGreaterThan(1600);
    expect(back.state).toBe(State.LOCKED);
  });
});

describe('a run of another car', () => {
  it('is told beside the car whose constants are used', async () => {
    const garage = demoGarage('forwarder');
    const outcome = await replayRun(DEMO_RUN, { ...PLAIN, garage, setup: ['vinyl'] });
    const car = replayFacts(outcome).find(({ label }) => label === 'Car')!.value;
    expect(car).toBe('Dunnock forwarder, though the run is of Pipit rally hatch');
  });
});

describe('a run of our own core', () => {
  it.each(['node', 'quickjs'] as const)('verifies bit for bit in %s', async (engine) => {
    const outcome = await replayRun(DEMO_RUN, { ...PLAIN, verify: true, engine });
    expect(outcome.result.verification).toMatchObject({ identical: true, ticks: 5871 });
    expect(outcome.good).toBe(true);
  });

  it.each([
    ['throttle_permille', 'shaping'],
    ['cut_permille', 'split'],
    ['drive_right_permille', 'slew and gate'],
  ])('one changed %s is found with its tick, in the stage %s', async (column, stage) => {
    const run = changedCopy(column, 3000);
    const { result, good } = await replayRun(run, { ...PLAIN, verify: true });
    expect(good).toBe(false);
    expect(result.verification?.first).toMatchObject({ stage, column, line: 3002 });
    const { recorded, recomputed } = result.verification!.first!;
    expect(recorded).toBe(recomputed + 1);
  });

  it('a changed input shows first in the stage it goes into', async () => {
    const run = changedCopy('throttle_us', 3000, 40);
    const { result } = await replayRun(run, { ...PLAIN, verify: true });
    expect(result.verification?.first).toMatchObject({ stage: 'shaping', line: 3002 });
  });

  it('cannot be verified without its constants or its beginning', async () => {
    const run = join(folder, 'bare.csv');
    copyFileSync(DEMO_RUN, run);
    await expect(replayRun(run, { ...PLAIN, verify: true, garage: HATCH })).rejects.toThrow(
      /bare\.csv: --verify: its metadata hold no constants/,
    );
  });

  it('cannot be verified without the commands of its motors', async () => {
    const run = strippedCopy('mute.csv', (name) => !/^drive_/.test(name));
    await expect(replayRun(run, { ...PLAIN, verify: true })).rejects.toThrow(
      /mute\.csv: --verify: it does not hold drive_left_permille, drive_right_permille/,
    );
    const { result } = await replayRun(run, PLAIN);
    expect(result.verification).toMatchObject({ identical: true });
  });

  it.each([
    ['a digit changed', (text: string) => text.replace('1350', '1351')],
    ['a list cut short', (text: string) => text.replace(/,\d+\],"setups"/, '],"setups"')],
    ['no setup', (text: string) => text.replace(/"setups":\[\[.*\]\]/, '"setups":[]')],
  ])('whose constants are damaged, %s, says so', async (_what, damage) => {
    const run = strippedCopy('damaged.csv', () => true);
    const metadata = JSON.parse(readFileSync(metadataPath(run), 'utf8'));
    const key = Object.keys(metadata).find((name) => name.endsWith('#constants'))!;
    const text = damage(metadata[key]);
    expect(text).not.toBe(metadata[key]);
    writeFileSync(metadataPath(run), JSON.stringify({ ...metadata, [key]: text }));
    await expect(replayRun(run, PLAIN)).rejects.toThrow(/constants: are damaged/);
    const other = await replayRun(run, { ...PLAIN, garage: HATCH, setup: ['vinyl'] });
    expect(other.result.held).toBe(true);
  });

  it.each([
    [['gone'], 'carpet (the first of the garage: it has no gone, which the run names)'],
    [['gone', 'vinyl'], 'vinyl (the garage has no gone, so that slots differ)'],
  ])('that names %j says what of it the garage lacks', async (names, told) => {
    const run = strippedCopy('named.csv', () => true);
    const metadata = JSON.parse(readFileSync(metadataPath(run), 'utf8'));
    for (const key of Object.keys(metadata)) {
      if (key.endsWith('#constants')) delete metadata[key];
      else if (key.endsWith('#setups'))
        metadata[key] = names.map((name, at) => ({ 'schema:position': at, 'schema:name': name }));
    }
    writeFileSync(metadataPath(run), JSON.stringify(metadata));
    const facts = replayFacts(await replayRun(run, { ...PLAIN, garage: HATCH }));
    expect(facts.find(({ label }) => label === 'Setup')!.value).toBe(told);
  });

  it('is not blamed on another build where time stamps were repaired', async () => {
    const run = changedCopy('time_ms', 3000, -10);
    const options = { ...PLAIN, mode: 'lenient', repairs: ['drop'] } as const;
    const { result, lossCount, repairs } = await replayRun(run, { ...options, verify: true });
    expect(repairs).toBe(1);
    expect(verdictText(result, lossCount + repairs)).toMatch(/1 part was left out or repaired/);
  });

  it('is found in its garage from beside it, too', async () => {
    const before = process.cwd();
    process.chdir(dirname(DEMO_RUN));
    try {
      const plan = await planReplay('hall-evening.csv', { setup: ['carpet'] });
      expect(plan.setups).toEqual(['carpet']);
    } finally {
      process.chdir(before);
    }
  });

  it('is judged by what the core takes of an input beyond 16 bits', async () => {
    const age = changedCopy('input_age_ms', 3000, 65535);
    const current = changedCopy('current_left_ma', 3000, 40000);
    for (const run of [age, current]) {
      const { result } = await replayRun(run, PLAIN);
      expect(result.limits.filter(({ held }) => held === false)).toEqual([]);
    }
  });

  it('what is saved verifies in its turn', async () => {
    const save = join(folder, 'again.csv');
    await replayRun(DEMO_RUN, { ...PLAIN, setup: ['carpet'], garage: HATCH, save });
    const { result } = await replayRun(save, { ...PLAIN, verify: true });
    expect(result.verification?.identical).toBe(true);
  });
});

describe('every demo run', () => {
  it.each([hallEvening, openDay])(
    '$car/$run is what its sticks, its simulated car and the core of today make, byte for byte',
    async (drive) => {
      const anew = join(folder, `${drive.run}-anew`, `${drive.run}.csv`);
      mkdirSync(dirname(anew));
      await recordRun(drive, anew);
      const kept = demoRunPath(drive);
      expect(readFileSync(anew, 'utf8')).toBe(readFileSync(kept, 'utf8'));
      expect(readFileSync(metadataPath(anew), 'utf8')).toBe(
        readFileSync(metadataPath(kept), 'utf8'),
      );
      const outcome = await replayRun(kept, { ...PLAIN, verify: true });
      expect(outcome.good).toBe(true);
      expect(outcome.plan.metadata?.origin).toMatch(/simulated vehicle/);
    },
  );
});

describe('two setups over the same inputs', () => {
  it('are told apart by their figures', async () => {
    const options = { ...PLAIN, setup: ['vinyl'], against: 'carpet', garage: HATCH };
    const { result } = await replayRun(DEMO_RUN, options);
    // vinyl: forward limit 80 %, ceiling of the cut 15 %; carpet: 100 %, 25 %.
    expect(result.figures.mostDrive).toBeLessThanOrEqual(800);
    expect(result.againstFigures!.mostDrive).toBeGreaterThan(800);
    expect(result.againstFigures!.mostCut).toBeGreaterThan(result.figures.mostCut);
  });

  it('are equal if they are the same', async () => {
    const options = { ...PLAIN, setup: ['vinyl'], against: 'vinyl', garage: HATCH };
    const { result } = await replayRun(DEMO_RUN, options);
    expect(result.againstFigures).toEqual(result.figures);
  });
});

describe('findings', () => {
  let stopped: Awaited<ReturnType<typeof replayRun>>;
  beforeAll(async () => {
    stopped = await replayRun(DEMO_RUN, PLAIN);
  });

  it('tell the stop and the re-arming with their times', () => {
    const { findings } = stopped.result;
    const texts = findings.map(({ atS, text }) => `${atS.toFixed(1)} ${text}`);
    expect(texts).toContainEqual(expect.stringMatching(/^39\.5 Controlled stop: the signal was/));
    expect(texts).toContainEqual(expect.stringMatching(/^43\.\d Re-armed/));
  });

  it('states follow each other without a hole', () => {
    const { states } = stopped.result;
    for (let i = 1; i < states.length; i++) expect(states[i]!.fromS).toBe(states[i - 1]!.toS);
    expect(states.map((state) => state.label)).toContain('stopping');
  });

  it('a lost sensor is told', async () => {
    const run = join(folder, 'blind.csv');
    const lines = readFileSync(DEMO_RUN, 'utf8').split('\r\n');
    const at = lines[0]!.split(',').indexOf('battery_mv');
    const blind = lines.map((line, i) => {
      const cells = line.split(',');
      if (i >= 1000 && i < 1200) cells[at] = '';
      return cells.join(',');
    });
    writeFileSync(run, blind.join('\r\n'));
    const { result } = await replayRun(run, { ...PLAIN, garage: HATCH, setup: ['vinyl'] });
    expect(result.findings.map((finding) => finding.text)).toContainEqual(
      expect.stringMatching(/sensor gives no sample/),
    );
    expect(result.limits.find((limit) => limit.id === 'S13')?.held).toBe(true);
    expect(Flag.SENSOR_LOST).toBe(32);
  });
});

describe('bad wishes', () => {
  it.each([
    [{ garage: join(folder, 'nowhere') }, /nowhere.*is not a garage folder/],
    [{ garage: HATCH, setup: ['vinil'] }, /vinil.*vinyl/],
    [{ garage: HATCH, setup: ['vinyl'], against: 'gravel' }, /--against: found "gravel"/],
    [
      { garage: HATCH, setup: ['vinil', 'carpt'], against: 'gravel' },
      /--setup: found "vinil".*--setup: found "carpt".*--against: found "gravel"/s,
    ],
  ])('%o is a UserError', async (wishes, message) => {
    const failed = replayRun(HALL_FLOOR, { ...PLAIN, ...wishes });
    await expect(failed).rejects.toThrow(UserError);
    await expect(failed).rejects.toThrow(message);
  });

  it('a run that is not there, and one that lies in no garage', async () => {
    await expect(replayRun(join(folder, 'no.csv'), PLAIN)).rejects.toThrow(/no such file/);
    await expect(replayRun(HALL_FLOOR, PLAIN)).rejects.toThrow(/lies in no garage/);
  });
});

/** A copy of the demo run with one value of one row raised. */
function changedCopy(column: string, row: number, by = 1): string {
  const run = join(folder, `${column}.csv`);
  const lines = readFileSync(DEMO_RUN, 'utf8').split('\r\n');
  const at = lines[0]!.split(',').indexOf(column);
  const cells = lines[row + 1]!.split(',');
  cells[at] = `${Number(cells[at]) + by}`;
  lines[row + 1] = cells.join(',');
  writeFileSync(run, lines.join('\r\n'));
  const metadata = readFileSync(metadataPath(DEMO_RUN), 'utf8');
  writeFileSync(metadataPath(run), metadata.replace('hall-evening.csv', `${column}.csv`));
  return run;
}

/** The demo run with some of its columns alone. */
function strippedCopy(name: string, isKept: (column: string) => boolean): string {
  const run = join(folder, name);
  const lines = readFileSync(DEMO_RUN, 'utf8').split('\r\n');
  const kept = lines[0]!.split(',').map(isKept);
  const strip = (line: string) => line.split(',').filter((_, at) => kept[at]);
  writeFileSync(run, lines.map((line) => strip(line).join()).join('\r\n'));
  const metadata = JSON.parse(readFileSync(metadataPath(DEMO_RUN), 'utf8'));
  const { columns } = metadata.tableSchema as { columns: { name: string }[] };
  metadata.tableSchema.columns = columns.filter((column) => isKept(column.name));
  metadata.url = name;
  writeFileSync(metadataPath(run), JSON.stringify(metadata));
  return run;
}

function table(path: string): Record<string, number>[] {
  const [header, ...lines] = readFileSync(path, 'utf8').trim().split(/\r?\n/);
  const names = header!.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return Object.fromEntries(names.map((name, i) => [name, Number(cells[i])]));
  });
}
