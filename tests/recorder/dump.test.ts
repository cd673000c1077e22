import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runCli } from '../../harness/cli/run-cli.ts';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { decodeDump } from '../../harness/recorder/decode-dump.ts';
import { dumpToRun } from '../../harness/recorder/dump-to-run.ts';
import { replayRun } from '../../harness/replay/replay-run.ts';
import { readRun } from '../../harness/runs/read-run.ts';
import { fillInputs, runInputs } from '../../harness/runs/run-inputs.ts';
import { bake } from '../../harness/setup/bake.ts';
import { findSetup, loadGarage } from '../../harness/setup/load-garage.ts';
import {
  type Constants,
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
async function record(ticks: number): Promise<{ bytes: Buffer; constants: Constants }> {
  const garage = await loadGarage(HATCH);
  const constants = bake(garage.vehicle, [findSetup(garage, 'vinyl')]);
  const core = createController(constants);
  const recorder = createRecorder(2, RECORDS, 3);
  const inputs = createInputs();
  const outputs = createOutputs();
  const blocks: Buffer[] = [];
  for await (const chunk of readRun(join(HATCH, 'runs/hall-evening.csv'))) {
    const source = runInputs(chunk, Layout.PAIR);
    for (let row = 0; row < chunk.rows && blocks.length * RECORDS < ticks; row++) {
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
  return { bytes: Buffer.concat(blocks), constants };
}

describe('what a recorder wrote', () => {
  it('becomes a run that verifies bit for bit', async () => {
    const { bytes } = await record(5864);
    const dump = join(folder, 'hub.bin');
    const run = join(folder, 'hub.csv');
    writeFileSync(dump, bytes);
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
    const { bytes } = await record(3 * RECORDS);
    const size = bytes.length / 3;
    for (let end = 0; end <= bytes.length; end++) {
      const { records, losses } = decodeDump(bytes.subarray(0, end));
      expect(records).toHaveLength(Math.floor(end / size) * RECORDS);
      expect(losses).toHaveLength(end % size === 0 ? 0 : 1);
    }
  });

  it('with any byte of a block changed loses that block and no other', async () => {
    const { bytes } = await record(3 * RECORDS);
    const size = bytes.length / 3;
    for (let at = size; at < 2 * size; at++) {
      const torn = Buffer.from(bytes);
      torn[at]! ^= 0x55;
      const { records, losses } = decodeDump(torn);
      expect(records).toHaveLength(2 * RECORDS);
      expect(losses).toContain('1 blocks are missing before block 2');
    }
  });

  it('in the order of a ring is put in the order of time', async () => {
    const { bytes } = await record(3 * RECORDS);
    const size = bytes.length / 3;
    const rotated = Buffer.concat([bytes.subarray(2 * size), bytes.subarray(0, 2 * size)]);
    expect(decodeDump(rotated)).toEqual(decodeDump(bytes));
    expect(decodeDump(bytes).startsAtPowerUp).toBe(true);
    expect(decodeDump(bytes.subarray(size)).startsAtPowerUp).toBe(false);
  });
});

describe('lib/SPEC.md', () => {
  it('its worked example reads as it says', async () => {
    const spec = readFileSync(join(import.meta.dirname, '../../lib/SPEC.md'), 'utf8');
    const block = /```\n([0-9a-f \n]+)```/.exec(spec)![1]!;
    const crc = /the last word: `([0-9a-f]{8})`/.exec(spec)![1]!;
    const bytes = Buffer.from(block.replace(/\s/g, '') + crc, 'hex');
    const dump = decodeDump(bytes);
    expect(dump).toMatchObject({ motors: 2, startsAtPowerUp: true, losses: [] });
    const path = join(folder, 'example.csv');
    await dumpToRun(path, dump, {});
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
