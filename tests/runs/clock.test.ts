import { describe, expect, test } from 'vitest';
import { IssueFold } from '../../harness/runs/issue-fold.ts';
import type { ReadOptions } from '../../harness/runs/read-run.ts';
import { writeRun } from '../../harness/runs/write-run.ts';
import { V } from '../../lib/constants.ts';
import { toChunk } from './random-run.ts';
import { createScratch, readOut, rejection } from './scratch.ts';

const scratch = createScratch();

/** Reads a run of these time stamps; the throttle column numbers the rows. */
async function read(times: number[], options: ReadOptions = {}) {
  const rows = times.map((time, row) => `${time},${row},0\n`).join('');
  const path = scratch.put('clock.csv', `time_ms,throttle_us,steer_us\n${rows}`);
  const out = await readOut(path, options);
  return {
    times: out.rows.map(([time]) => time),
    rows: out.rows.map(([, row]) => row),
    told: out.issues.map(({ kind, line, repair }) => [line, kind, repair?.name, repair?.done]),
    lost: out.issues.some(({ lost }) => lost),
  };
}

describe('an odd clock is told with the repair that would cure it, and left as it is', () => {
  test.each([
    ['stands still', [0, 10, 10, 20], [[4, 'clock-duplicate', 'drop', false]]],
    ['runs back a little', [0, 10, 20, 15, 30], [[5, 'clock-late', 'sort', false]]],
    ['starts anew', [5000, 5010, 0, 10], [[4, 'clock-restart', 'rebase', false]]],
    ['jumps', [0, 10, 211, 221], [[4, 'clock-gap', 'close', false]]],
    ['has no stamp', [0, -32768, 10, 20], [[3, 'clock-missing', 'drop', false]]],
  ])('%s', async (_, times, expected) => {
    const out = await read(times, { mode: 'strict' });
    expect(out.times).toEqual(times);
    expect(out.told).toEqual(expected);
    expect(out.lost).toBe(false);
  });

  test('a wrap of the 32-bit clock is no odd step', async () => {
    const out = await read([2147483640, -2147483646, -2147483636]);
    expect(out.told).toEqual([]);
  });

  test('a late tick within the gap time is no gap; the gap time can be given', async () => {
    expect((await read([0, 200])).told).toEqual([]);
    expect((await read([0, 201])).told).toHaveLength(1);
    expect((await read([0, 31], { gapMs: 30 })).told).toHaveLength(1);
  });

  test('the gap time is that of the constants the run was driven with', async () => {
    const path = scratch.path('gap.csv');
    const names = ['time_ms', 'throttle_us', 'steer_us'];
    const rows = [0, 40].map((time) => ({ integers: [time, 0, 0], texts: [] }));
    const vehicle = new Array<number>(V.COUNT).fill(0);
    vehicle[V.GAP_MS] = 30;
    const metadata = { constants: { vehicle, setups: [], crc: 0 } };
    await writeRun(path, names, [toChunk({ names, rows })], { metadata });
    expect((await readOut(path)).issues.map(({ kind }) => kind)).toEqual(['clock-gap']);
  });
});

describe('repairs are made when asked for by name, and told', () => {
  test('drop leaves out rows that repeat, are late or have no stamp', async () => {
    const out = await read([0, 10, 10, 20, 15, -32768, 30], { repairs: ['drop'] });
    expect(out.rows).toEqual([0, 1, 3, 6]);
    expect(out.told).toEqual([
      [4, 'clock-duplicate', 'drop', true],
      [6, 'clock-late', 'drop', true],
      [7, 'clock-missing', 'drop', true],
    ]);
  });

  test('sort moves late rows to their place; equal times keep their order', async () => {
    const out = await read([0, 30, 10, 10, 20, 40], { repairs: ['sort'] });
    expect(out.times).toEqual([0, 10, 10, 20, 30, 40]);
    expect(out.rows).toEqual([0, 2, 3, 4, 1, 5]);
    expect(out.told.filter(([, kind]) => kind === 'clock-late')).toEqual([
      [4, 'clock-late', 'sort', true],
      [5, 'clock-late', 'sort', true],
      [6, 'clock-late', 'sort', true],
    ]);
  });

  test('sort works across chunks and moves nothing across a restart of the clock', async () => {
    const times = Array.from({ length: 60_000 }, (_, row) => row * 10);
    for (let row = 50; row < times.length; row += 97) {
      [times[row], times[row - 3]] = [times[row - 3]!, times[row]!];
    }
    const sorted = [...times].sort((a, b) => a - b);
    const out = await read([...times, ...times.slice(0, 30)], { repairs: ['sort'] });
    expect(out.times).toEqual([...sorted, ...times.slice(0, 30)]);
    expect(out.told.at(-1)).toEqual([60_002, 'clock-restart', 'rebase', false]);
  });

  test('rebase goes on counting with the usual step', async () => {
    const out = await read([5000, 5020, 0, 20, 45], { repairs: ['rebase'] });
    expect(out.times).toEqual([5000, 5020, 5040, 5060, 5085]);
    expect(out.told).toEqual([[4, 'clock-restart', 'rebase', true]]);
  });

  test('close takes a gap out', async () => {
    const out = await read([0, 10, 5000, 5010], { repairs: ['close'] });
    expect(out.times).toEqual([0, 10, 20, 30]);
    expect(out.told).toEqual([[4, 'clock-gap', 'close', true]]);
  });

  test('several repairs together', async () => {
    const out = await read([9000, 9020, 9010, 9030, 9030, 0, 10, 900], {
      repairs: ['sort', 'drop', 'rebase', 'close'],
    });
    expect(out.times).toEqual([9000, 9010, 9020, 9030, 9040, 9050, 9060]);
  });
});

describe('a time in another unit', () => {
  test.each([
    ['s', (row: number) => Math.floor(row / 100), 'stands still in 297 of 299 steps'],
    ['µs', (row: number) => row * 10_000, 'jumps by more than 200 ms in 299 of 299 steps'],
  ])('in %s is told once, with the unit expected', async (unit, timeOf, what) => {
    const times = Array.from({ length: 300 }, (_, row) => timeOf(row));
    const rows = times.map((time) => `${time},1500,1500\n`).join('');
    const path = scratch.put('unit.csv', `time_ms,throttle_us,steer_us\n${rows}`);
    const fold = new IssueFold();
    const { issues } = await readOut(path);
    for (const issue of issues) fold.add(issue);
    const message = `${what}, as if it were in ${unit}; expected ms.`;
    expect(fold.told()).toMatchObject([{ kind: 'clock-unit', field: 'time_ms', message }]);
  });

  test('in s with decimals, it costs every row, and is told once', async () => {
    const rows = Array.from({ length: 50 }, (_, row) => `${(row / 100).toFixed(2)},1500,1500\n`);
    const path = scratch.put('decimals.csv', `time_ms,throttle_us,steer_us\n${rows.join('')}`);
    const error = await rejection(readOut(path, { mode: 'strict' }));
    expect(error.message.split('\n')).toEqual([
      `${path}:2: time_ms: found "0.00", expected whole ms. 50 such lines: 2 to 51. ` +
        'A log in another unit becomes a run by "axlewright import" and a mapping, ' +
        'harness/runs/SPEC.md.',
      expect.stringContaining('50 in all.'),
    ]);
  });

  test('a repair made is told all the same', async () => {
    const rows = Array.from({ length: 60 }, (_, row) => `${Math.floor(row / 30)},1500,1500\n`);
    const path = scratch.put('repaired.csv', `time_ms,throttle_us,steer_us\n${rows.join('')}`);
    const fold = new IssueFold();
    const { issues } = await readOut(path, { repairs: ['drop'] });
    for (const issue of issues) fold.add(issue);
    const told = fold.told().map(({ kind, repair }) => [kind, repair?.done]);
    expect(told).toContainEqual(['clock-duplicate', true]);
    expect(told).toContainEqual(['clock-unit', undefined]);
  });

  test('a slow log and repeated stamps are no unit; a clock that never runs is told', async () => {
    const unit = async (times: number[]) =>
      (await read(times)).told.filter(([, kind]) => kind === 'clock-unit');
    expect(await unit(Array.from({ length: 100 }, (_, row) => row * 500))).toEqual([]);
    expect(await unit(Array.from({ length: 100 }, (_, row) => 10 * (row - (row % 3))))).toEqual([]);
    expect(await unit(Array.from({ length: 100 }, () => 7))).toHaveLength(1);
  });
});
