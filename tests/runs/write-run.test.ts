import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { metadataPath } from '../../harness/runs/run-metadata.ts';
import { createRunWriter, writeRun } from '../../harness/runs/write-run.ts';
import { toChunk } from './random-run.ts';
import { createScratch, readOut, rejection } from './scratch.ts';

const scratch = createScratch();
const NAMES = ['time_ms', 'throttle_us', 'steer_us'];
const chunkOf = (...times: number[]) =>
  toChunk({ names: NAMES, rows: times.map((time) => ({ integers: [time, 1, 2], texts: [] })) });

describe('a run appears whole or not at all', () => {
  test('nothing of its name exists before it is finished, nothing else after', async () => {
    const path = scratch.path('atomic.csv');
    const writer = await createRunWriter(path, NAMES);
    await writer.writeRow([0, 1, 2]);
    expect(existsSync(path) || existsSync(metadataPath(path))).toBe(false);
    await writer.finish();
    const left = readdirSync(scratch.folder).filter((name) => name.startsWith('atomic'));
    expect(left.sort()).toEqual(['atomic.csv', 'atomic.csv-metadata.json']);
    expect(readFileSync(path, 'latin1')).toBe('time_ms,throttle_us,steer_us\r\n0,1,2\r\n');
  });

  test('when the rows fail half-way, nothing is left', async () => {
    const path = scratch.path('failing.csv');
    function* failing() {
      yield chunkOf(0);
      throw new Error('no more rows');
    }
    expect((await rejection(writeRun(path, NAMES, failing()))).message).toBe('no more rows');
    expect(readdirSync(scratch.folder).filter((name) => name.startsWith('failing'))).toEqual([]);
  });

  test('a long run comes through whole when nobody waits between the rows', async () => {
    const path = scratch.path('hasty.csv');
    const writer = await createRunWriter(path, NAMES);
    for (let row = 0; row < 50_000; row++) void writer.writeRow([row * 10, row, -row | 0]);
    await writer.finish();
    const out = await readOut(path);
    expect(out.rows).toHaveLength(50_000);
    expect(out.rows[49_999]).toEqual([499_990, 49_999, -49_999]);
    expect(out.issues).toEqual([]);
  });
});

describe('an existing file is safe', () => {
  test('a run of that name is an error and stays as it was', async () => {
    const path = scratch.path('kept.csv');
    await writeRun(path, NAMES, [chunkOf(0)]);
    const before = readFileSync(path, 'latin1');
    const error = await rejection(writeRun(path, NAMES, [chunkOf(5)]));
    expect(error).toBeInstanceOf(UserError);
    expect(error.message).toContain('There is such a file already');
    expect(readFileSync(path, 'latin1')).toBe(before);
  });

  test('one that comes about while the run is written is safe as well', async () => {
    const path = scratch.path('race.csv');
    const writer = await createRunWriter(path, NAMES);
    writeFileSync(path, 'mine');
    expect(await rejection(writer.finish())).toBeInstanceOf(UserError);
    await writer.abort();
    expect(readFileSync(path, 'latin1')).toBe('mine');
    expect(existsSync(`${path}.partial`)).toBe(false);
  });

  test('told so, it is replaced together with its metadata', async () => {
    const path = scratch.path('replaced.csv');
    await writeRun(path, NAMES, [chunkOf(0, 10)], { metadata: { vehicle: 'hatch' } });
    await writeRun(path, NAMES, [chunkOf(5)], { overwrite: true });
    const out = await readOut(path);
    expect(out.rows).toEqual([[5, 1, 2]]);
    expect(out.issues).toEqual([]);
    expect(readFileSync(metadataPath(path), 'utf8')).not.toContain('hatch');
  });

  test('what is left of an interrupted run is kept, and the error says what to do', async () => {
    const path = scratch.path('crash.csv');
    scratch.put('crash.csv.partial', 'time_ms');
    const error = await rejection(writeRun(path, NAMES, [chunkOf(0)]));
    expect(error.message).toContain('crash.csv.partial');
    expect(error.message).toContain('rename it to keep it, or delete it');
    expect(scratch.text('crash.csv.partial')).toBe('time_ms');
  });

  test('a folder that is not there is a clear error', async () => {
    const error = await rejection(writeRun(scratch.path('no/where.csv'), NAMES, []));
    expect(error).toBeInstanceOf(UserError);
    expect(error.message).toContain('there is no such folder');
  });
});

describe('the writer refuses what no reader could take', () => {
  test.each([
    ['a fraction', [0, 1.5, 2], []],
    ['NaN', [0, Number.NaN, 2], []],
    ['33 bits', [0, 2 ** 31, 2], []],
    ['a missing value', [0, 1], []],
    ['a text too many', [0, 1, 2], ['x']],
  ])('%s', async (_, values, texts) => {
    const writer = await createRunWriter(scratch.path('refused.csv'), NAMES);
    expect(() => writer.writeRow(values, texts)).toThrow(RangeError);
    await writer.abort();
  });

  test.each(['\0', '\uFFFD', '\uD800', 'x'.repeat(70_000)])('the text %j', async (text) => {
    const writer = await createRunWriter(scratch.path('text.csv'), [...NAMES, 'note']);
    expect(() => writer.writeRow([0, 1, 2], [text])).toThrow(RangeError);
    await writer.abort();
  });

  test.each([[['time_ms', 'throttle_us']], [[...NAMES, 'x', 'x']]])('columns %j', async (names) => {
    const path = scratch.path('columns.csv');
    expect(await rejection(createRunWriter(path, names))).toBeInstanceOf(RangeError);
    expect(existsSync(`${path}.partial`)).toBe(false);
  });
});
