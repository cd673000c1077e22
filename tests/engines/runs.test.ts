import { readdirSync, readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { type DrivePlan, driveHere, driveScript } from '../../harness/engines/drive-script.ts';
import { quickjsEngine } from '../../harness/engines/quickjs-engine.ts';
import { readTicks } from '../../harness/engines/read-ticks.ts';
import { rowOf } from '../../harness/engines/row-of.ts';
import * as source from '../../lib/index.ts';
import { sampleBundle } from '../targets/sample-bundle.ts';
import { sampleConstants } from './sample-constants.ts';
import { usableEngines } from './usable-engines.ts';

const folder = new URL('../fixtures/runs/', import.meta.url);
const runs = readdirSync(folder).filter((name) => name.endsWith('.csv'));

/** The inputs of a recorded run, tick by tick; a column it lacks is missing. */
function inputsOf(run: string): source.Inputs[] {
  const text = readFileSync(new URL(run, folder), 'utf8');
  const { data } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  return data.map((row) => {
    const cell = (column: string, otherwise = source.MISSING) =>
      row[column] === undefined || row[column] === '' ? otherwise : Number(row[column]);
    return {
      ...source.createInputs(),
      timeMs: cell('time_ms'),
      throttleUs: cell('throttle_us'),
      steerUs: cell('steer_us'),
      ageMs: cell('input_age_ms'),
      slot: cell('slot', 0),
      guest: cell('guest', 0),
      batteryMv: cell('battery_mv'),
      yawRateMradS: cell('yaw_rate_mrad_s'),
      currentMa: [
        cell('current_left_ma'),
        cell('current_right_ma'),
        source.MISSING,
        source.MISSING,
      ],
    };
  });
}

describe.each(runs)('recorded run %s', (run) => {
  const constants = sampleConstants({ layout: 'pair' });
  const rows = inputsOf(run).flatMap(rowOf);
  let code = '';
  beforeAll(async () => {
    code = (await sampleBundle({ fit: 'any', setups: 2 })).code;
  });

  it('gives the same bits on every engine', async () => {
    const plan: DrivePlan = { kind: 'digest', rows, every: 500, motors: 2 };
    const script = await driveScript(code, plan);
    const expected = driveHere({ ...source, constants }, plan);
    for (const engine of usableEngines) {
      expect(await engine.run(script), engine.name).toBe(expected);
    }
  });

  it('prints outputs in QuickJS that read back exactly as the source computed them', async () => {
    const plan: DrivePlan = { kind: 'ticks', rows };
    const script = await driveScript(code, plan);
    const outputs = source.createOutputs();
    const core = source.createController(constants);
    const expected = inputsOf(run).map((inputs) => {
      core.step(inputs, outputs);
      return { ...outputs, drive: [...outputs.drive] };
    });
    const read = readTicks(await quickjsEngine.run(script));
    expect(read).toEqual(expected);
    expect(read.some(({ throttle }) => !Number.isInteger(throttle))).toBe(true);
  });
});

it('the runs shipped with the tests are there', () => {
  expect(runs).toContain('hall-floor.csv');
});
