import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readRun } from '../../harness/runs/read-run.ts';
import { fillInputs, runInputs } from '../../harness/runs/run-inputs.ts';
import { Layout } from '../../lib/codes.ts';
import { createInputs } from '../../lib/signals.ts';
import { readOut } from './scratch.ts';

// A run made outside the project: tests/fixtures/runs/hall-floor.md.
const RUN = fileURLToPath(new URL('../fixtures/runs/hall-floor.csv', import.meta.url));

test('the independent run reads with no lost row and no odd clock', async () => {
  const out = await readOut(RUN, { mode: 'strict' });
  expect(out.issues).toEqual([]);
  expect(out.rows).toHaveLength(5973);
  expect(out.rows[0]).toEqual([0, 1501, 1500, 3, 7992, 18, -36, 13, 0, 0, 0]);
  expect(out.rows[5972]).toEqual([59996, 1501, 1500, 4, 7752, -126, -72, -2, 0, 0, 0]);
});

test('its age counts up while the signal is lost, and only then', async () => {
  const { rows } = await readOut(RUN);
  const old = rows.filter((row) => row[3]! > 200).map(([time]) => time!);
  expect(Math.min(...old)).toBeGreaterThan(40_000);
  expect(Math.max(...old)).toBeLessThan(41_250);
});

test('its rows reach the core as inputs; what it does not have is filled in', async () => {
  const inputs = createInputs();
  for await (const chunk of readRun(RUN)) {
    const columns = runInputs(chunk, Layout.TWO_PAIRS);
    expect(columns.rows).toBe(chunk.rows);
    fillInputs(columns, 0, inputs);
    expect(inputs).toEqual({
      timeMs: chunk.columns.get('time_ms')![0],
      throttleUs: chunk.columns.get('throttle_us')![0],
      steerUs: chunk.columns.get('steer_us')![0],
      ageMs: chunk.columns.get('input_age_ms')![0],
      slot: 0,
      guest: 0,
      batteryMv: chunk.columns.get('battery_mv')![0],
      yawRateMradS: chunk.columns.get('yaw_rate_mrad_s')![0],
      // Its motors are a pair, so those of this layout have no current.
      currentMa: [-32768, -32768, -32768, -32768],
      wheelDegS: [-32768, -32768, -32768, -32768],
    });
    fillInputs(runInputs(chunk, Layout.PAIR), 0, inputs);
    expect(inputs.currentMa.slice(0, 2)).toEqual([
      chunk.columns.get('current_left_ma')![0],
      chunk.columns.get('current_right_ma')![0],
    ]);
  }
});
