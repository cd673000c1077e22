import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runCli } from '../../harness/cli/run-cli.ts';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { decodeDump } from '../../harness/recorder/decode-dump.ts';
import { dumpToRun } from '../../harness/recorder/dump-to-run.ts';
import { findSetups } from '../../harness/recorder/find-setups.ts';
import { unpackDump } from '../../harness/recorder/unpack-dump.ts';
import { replayRun } from '../../harness/replay/replay-run.ts';
import { readRun } from '../../harness/runs/read-run.ts';
import { readRunMetadata } from '../../harness/runs/read-run-metadata.ts';
import { fillInputs, runInputs } from '../../harness/runs/run-inputs.ts';
import { bake } from '../../harness/setup/bake.ts';
import { findSetup, loadGarage } from '../../harness/setup/load-garage.ts';
import {
  createController,
  createInputs,
  createOutputs,
  createRecorder,
  Layout,
} from '../../lib/index.ts';

const folder = mkdtempSync(join(tmpdir(), 'axlewright-dump-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const HATCH = demoGarage('hatch');
const RECORDS = 8;

/** Drives the demo run's inputs with a recorder behind the core; the bytes of every block. */
async function record(ticks: number, names = ['vinyl'], skipped = 0): Promise<Buffer> {
  const garage = await loadGarage(HATCH);
  const setups = names.map((name) => findSetup(garage, name));
  const constants = bake(garage.vehicle, setups);
  const core = createController(constants);
  const recorder = createRecorder(2, RECORDS, 3, constants.crc);
  const inputs = createInputs();
  const outputs = createOutputs();
  const blocks: Buffer[] = [];
  for await (const chunk of readRun(join(HATCH, 'runs/hall-evening.csv'))) {
    const source = runInputs(chunk, Layout.PAIR);
    for (let row = skipped; row < chunk.rows && blocks.length * RECORDS < ticks; row++) {
      fillInputs(source, row, inputs);
      core.step(inputs, outputs);
      if (recorder.put(inputs, outputs) === 1) {
        const block = Buffer.alloc(recorder.blockWords * 4);
        for (let i = 0; i < recorder.blockWords; i++) {
          block.writeInt32LE(recorder.ring[recorder.done + i]!, i * 4);
        }
        blocks.push(block);
      }
    }
  }
  return Buffer.concat(blocks);
}

/** A dump of these bytes as a file. */
function fileOf(name: string, ...parts: Buffer[]): string {
  const path = join(folder, name);
  writeFileSync(path, Buffer.concat(parts));
  return path;
}

describe('what a recorder wrote', () => {
  it('becomes a run that verifies bit for bit', async () => {
    const dump = fileOf('hub.bin', await record(5864));
    const run = join(folder, 'hub.csv');
    const args = ['unpack', dump, run, '--garage', HATCH, '--setup', 'vinyl'];
    expect(await runCli(args)).toBe(0);
    const outcome = await replayRun(run, {
      mode: 'strict',
      repairs: [],
      engine: 'node',
      verify: true,
    });
    expect(outcome.result.verification).toMatchObject({ identical: true, ticks: 5864 });
    // Every column the recorder fills is compared.
    expect(outcome.result.verification!.columns).toHaveLength(19 - 1);
  });

  it('cut off at any byte keeps every whole block before the cut', async () => {
    const bytes = await record(3 * RECORDS);
    const size = bytes.length / 3;
    for (let end = 0; end <= bytes.length; end++) {
      const { powerUps, strayBytes } = decodeDump(bytes.subarray(0, end));
      const ticks = powerUps.flatMap(({ records }) => records);
      expect(ticks).toHaveLength(Math.floor(end / size) * RECORDS);
      expect(strayBytes).toBe(end % size);
    }
  });

  it('with any byte of a block changed loses that block and no other', async () => {
    const bytes = await record(3 * RECORDS);
    const size = bytes.length / 3;
    for (let at = size; at < 2 * size; at++) {
      const torn = Buffer.from(bytes);
      torn[at]! ^= 0x55;
      const { powerUps } = decodeDump(torn);
      expect(powerUps).toHaveLength(1);
      expect(powerUps[0]!.records).toHaveLength(2 * RECORDS);
      expect(powerUps[0]!.losses).toEqual(['1 blocks are missing before block 2']);
    }
  });

  it('in the order of a ring is put in the order of time', async () => {
    const bytes = await record(3 * RECORDS);
    const size = bytes.length / 3;
    const rotated = Buffer.concat([bytes.subarray(2 * size), bytes.subarray(0, 2 * size)]);
    expect(decodeDump(rotated)).toEqual(decodeDump(bytes));
    expect(decodeDump(bytes).powerUps).toMatchObject([{ startsAtPowerUp: true }]);
    const late = decodeDump(bytes.subarray(size)).powerUps;
    expect(late).toMatchObject([{ startsAtPowerUp: false }]);
  });
});

describe('the blocks of several power-ups', () => {
  const sizes = (parts: Buffer[]) =>
    decodeDump(Buffer.concat(parts)).powerUps.map(({ records }) => records.length / RECORDS);

  it('in one file are told apart, the one that ends last coming last', async () => {
    const first = await record(5 * RECORDS);
    const second = await record(2 * RECORDS, ['vinyl'], 3);
    expect(sizes([first, second])).toEqual([5, 2]);
    expect(sizes([second, first])).toEqual([2, 5]);
    expect(sizes([first, first])).toEqual([5]);
  });

  it('that begin alike each get their beginning', () => {
    const endingAt = (throttleUs: number) => {
      const recorder = createRecorder(2, 1, 4, 0);
      for (const us of [1500, 1500, throttleUs]) {
        recorder.put({ ...createInputs(), throttleUs: us }, createOutputs());
      }
      return Buffer.from(Int32Array.from(recorder.ring.slice(0, 3 * recorder.blockWords)).buffer);
    };
    const { powerUps } = decodeDump(Buffer.concat([endingAt(1600), endingAt(1700)]));
    const throttles = powerUps.map(({ records }) => records.map((record) => record[1]! >> 16));
    expect(throttles).toEqual([
      [1500, 1500, 1600],
      [1500, 1500, 1700],
    ]);
  });

  it('in a ring that was partly written over are told apart', async () => {
    const old = await record(5 * RECORDS, ['vinyl'], 3);
    const size = old.length / 5;
    const young = await record(2 * RECORDS);
    expect(sizes([young, old.subarray(2 * size)])).toEqual([2, 3]);
  });

  it('go on over a gap only where constants and time do', async () => {
    const bytes = await record(6 * RECORDS);
    const size = bytes.length / 6;
    const [early, late] = [bytes.subarray(0, 2 * size), bytes.subarray(3 * size)];
    expect(sizes([early, late])).toEqual([5]);
    const others = await record(2 * RECORDS, ['carpet']);
    expect(sizes([others, late])).toEqual([2, 3]);
    expect(sizes([early, others, late])).toEqual([2, 5]);
  });

  it('can be chosen, and the last is taken', async () => {
    const parts = [await record(5 * RECORDS), await record(2 * RECORDS, ['vinyl'], 3)];
    const dump = fileOf('twice.bin', ...parts);
    const run = (name: string) => join(folder, name);
    expect(await unpackDump(dump, run('last.csv'), {})).toMatchObject({ powerUp: 2, ticks: 16 });
    const first = await unpackDump(dump, run('first.csv'), { powerUp: 1 });
    expect(first).toMatchObject({
      powerUp: 1,
      ticks: 40,
      powerUps: [{ ticks: 40 }, { ticks: 16 }],
    });
    const none = unpackDump(dump, run('none.csv'), { powerUp: 3 });
    await expect(none).rejects.toThrow('--power-up: found 3, expected 1 to 2');
  });
});

it('a hole is noted in the run', async () => {
  const bytes = await record(4 * RECORDS);
  const size = bytes.length / 4;
  const run = join(folder, 'hole.csv');
  await unpackDump(fileOf('hole.bin', bytes.subarray(0, size), bytes.subarray(2 * size)), run, {});
  const { notes } = (await readRunMetadata(run))!;
  expect(notes).toEqual(['In the dump 1 blocks are missing before block 2.']);
});

describe('the setups on board', () => {
  it('are found by the dump, in their order', async () => {
    const dump = fileOf('order.bin', await record(RECORDS, ['vinyl', 'carpet']));
    const unpacked = await unpackDump(dump, join(folder, 'order.csv'), { garage: HATCH });
    expect(unpacked.setups).toEqual(['vinyl', 'carpet']);
  });

  it('in another order than that of the dump are refused, and the right one said', async () => {
    const dump = fileOf('wrong.bin', await record(RECORDS, ['vinyl', 'carpet']));
    const run = join(folder, 'wrong.csv');
    const wrong = unpackDump(dump, run, { garage: HATCH, setup: ['carpet', 'vinyl'] });
    await expect(wrong).rejects.toThrow('They are those of --setup "vinyl" "carpet".');
    expect(existsSync(run)).toBe(false);
  });

  it('named without a garage are refused', async () => {
    const dump = fileOf('lone.bin', await record(RECORDS));
    const wrong = unpackDump(dump, join(folder, 'lone.csv'), { setup: ['vinyl'] });
    await expect(wrong).rejects.toThrow('--setup: names setups, but no garage');
  });

  it('are all of a garage of twelve, in its order, unless some were named', async () => {
    const garage = await loadGarage(HATCH);
    const setups = Array.from({ length: 12 }, (_, i) => {
      const setup = garage.setups[i % garage.setups.length]!;
      return { ...setup, name: `s${i}`, link: { ...setup.link, holdMs: 100 + i } };
    });
    const many = { ...garage, setups };
    expect(findSetups(many, bake(garage.vehicle, setups).crc)).toEqual(setups);
    const two = [setups[7]!, setups[3]!];
    expect(findSetups(many, bake(garage.vehicle, two).crc)).toEqual(two);
  });

  it('of another car are refused', async () => {
    const dump = fileOf('car.bin', await record(RECORDS));
    const wrong = unpackDump(dump, join(folder, 'car.csv'), { garage: demoGarage('coupe') });
    await expect(wrong).rejects.toThrow(/does not give with any of its setups.*as it was when/);
  });
});

describe('lib/SPEC.md', () => {
  it('its worked example reads as it says', async () => {
    const spec = readFileSync(join(import.meta.dirname, '../../lib/SPEC.md'), 'utf8');
    const block = /```\n([0-9a-f \n]+)```/.exec(spec)![1]!;
    const crc = /the last word: `([0-9a-f]{8})`/.exec(spec)![1]!;
    const bytes = Buffer.from(block.replace(/\s/g, '') + crc, 'hex');
    const dump = decodeDump(bytes);
    expect(dump.strayBytes).toBe(0);
    const [powerUp] = dump.powerUps;
    const constants = 0x0badcafe;
    expect(powerUp).toMatchObject({ motors: 2, constants, startsAtPowerUp: true, losses: [] });
    const path = join(folder, 'example.csv');
    await dumpToRun(path, powerUp!, {});
    const [header, row] = readFileSync(path, 'utf8').split('\r\n');
    const values = row!.split(',').map(Number);
    const got = Object.fromEntries(header!.split(',').map((name, i) => [name, values[i]]));
    expect(got).toEqual({
      time_ms: 1000,
      throttle_us: 1600,
      steer_us: 1500,
      input_age_ms: 5,
      slot: 0,
      guest: 0,
      battery_mv: 7800,
      current_left_ma: 250,
      current_right_ma: -20,
      yaw_rate_mrad_s: -32768,
      wheel_left_deg_s: -32768,
      wheel_right_deg_s: -32768,
      drive_left_permille: 12,
      drive_right_permille: 11,
      steer_permille: 0,
      enable: 1,
      state: 1,
      cause: 0,
      flags: 0,
      throttle_permille: 20,
      demand_permille: 20,
      cut_permille: 0,
      limit_permille: 1000,
      speed_mm_s: 0,
      found: 0,
      spin_permille: 0,
      free_permille: 0,
      jam_permille: 0,
      assist_permille: 0,
    });
  });
});
