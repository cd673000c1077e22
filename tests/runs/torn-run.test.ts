import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { metadataPath } from '../../harness/runs/run-metadata.ts';
import { writeRun } from '../../harness/runs/write-run.ts';
import { randomRun, runText, toChunk } from './random-run.ts';
import { createScratch, type ReadOut, readOut, rejection } from './scratch.ts';

const scratch = createScratch();
const LINE_FEED = 10;
const isLoss = ({ lost }: { lost: boolean }): boolean => lost;

/** Bytes of a written run, and where each of its rows ends. */
async function written(path: string, run: Parameters<typeof toChunk>[0]) {
  const ends: number[] = [];
  for (let rows = 0; rows <= run.rows.length; rows++) {
    const part = { ...run, rows: run.rows.slice(0, rows) };
    await writeRun(path, run.names, [toChunk(part)], { overwrite: true });
    ends.push(readFileSync(path).length);
  }
  return { bytes: readFileSync(path), ends };
}

describe('a run of ours, cut at any byte', () => {
  test('every row before the cut is read, and exactly one loss is told', async () => {
    const path = scratch.path('cut.csv');
    const shape = { maxRows: 4, maxColumns: 2, text: runText, evenClock: true };
    await fc.assert(
      fc.asyncProperty(randomRun(shape), async (run) => {
        const { bytes, ends } = await written(path, run);
        for (let cut = 0; cut < bytes.length; cut++) {
          writeFileSync(path, bytes.subarray(0, cut));
          const out = await readOut(path);
          const whole = ends.filter((end) => end <= cut).length - 1;
          expect(out.rows).toEqual(run.rows.slice(0, Math.max(0, whole)).map((r) => r.integers));
          expect(out.texts).toEqual(run.rows.slice(0, Math.max(0, whole)).map((r) => r.texts));
          expect(out.issues.filter(isLoss)).toHaveLength(1);
        }
      }),
      { numRuns: 8, seed: 6031 },
    );
  });

  test('what is lost is counted; a number cut short is not taken for a number', async () => {
    const path = scratch.path('short.csv');
    const names = ['time_ms', 'throttle_us', 'steer_us'];
    const rows = [0, 10, 20, 30].map((time) => ({ integers: [time, 1500, 1234], texts: [] }));
    await writeRun(path, names, [toChunk({ names, rows })]);
    const text = readFileSync(path, 'latin1');
    const cutTo = async (length: number): Promise<ReadOut> => {
      writeFileSync(path, text.slice(0, length));
      return readOut(path);
    };
    const inside = await cutTo(text.indexOf('10,1500,12') + '10,1500,12'.length);
    expect(inside.rows).toEqual([[0, 1500, 1234]]);
    expect(inside.issues).toEqual([
      {
        kind: 'torn-end',
        line: 3,
        message: 'The file ends inside this row. 3 of 4 rows are lost.',
        lost: true,
      },
    ]);
    const between = await cutTo(text.indexOf('20,1500'));
    expect(between.rows).toHaveLength(2);
    expect(between.issues.map(({ kind, message }) => [kind, message])).toEqual([
      ['missing-rows', 'The metadata tell of 4 rows; here are 2.'],
    ]);
    const header = await cutTo(9);
    expect(header.issues.map(({ message }) => message)).toEqual([
      'The file ends inside its header; all 4 rows are lost.',
    ]);
  });

  test('read strictly, it is an error', async () => {
    const path = scratch.path('strict.csv');
    const names = ['time_ms', 'throttle_us', 'steer_us'];
    await writeRun(path, names, [toChunk({ names, rows: [{ integers: [0, 1, 2], texts: [] }] })]);
    writeFileSync(path, readFileSync(path).subarray(0, -1));
    expect((await rejection(readOut(path, { mode: 'strict' }))).message).toContain('ends inside');
  });
});

describe('a file from elsewhere', () => {
  test('its last row may lack a line break (RFC 4180 section 2, rule 2); it is told', async () => {
    const path = scratch.put('foreign.csv', 'time_ms,throttle_us,steer_us\n0,1,1\n10,1,12');
    const out = await readOut(path, { mode: 'strict' });
    expect(out.rows).toEqual([
      [0, 1, 1],
      [10, 1, 12],
    ]);
    expect(out.issues.map(({ kind, lost }) => [kind, lost])).toEqual([['no-final-break', false]]);
  });

  test('a last row without break that is not whole is torn', async () => {
    for (const tail of ['10,1', '10', '10,1,', '10,1,-', '10,1,"1', '\0\0\0', '"']) {
      const path = scratch.put('tail.csv', `time_ms,throttle_us,steer_us\n0,1,1\n${tail}`);
      const { rows, issues } = await readOut(path);
      const missing = tail === '10,1,';
      expect(rows).toHaveLength(missing ? 2 : 1);
      expect(issues.map(({ kind }) => kind)).toEqual([missing ? 'no-final-break' : 'torn-end']);
    }
  });
});

describe('garbage in the middle', () => {
  test('every row whose bytes were spared is read as it was', async () => {
    const path = scratch.path('garbage.csv');
    const shape = { maxRows: 8, maxColumns: 4, text: null, evenClock: true };
    const garbage = fc.oneof(
      fc.uint8Array({ minLength: 1, maxLength: 40 }),
      fc.nat(400).map((length) => new Uint8Array(length + 1)),
      fc
        .string({ unit: fc.constantFrom('"', ',', '\n', '\r', '1', '-'), minLength: 1 })
        .map((text) => new Uint8Array(Buffer.from(text))),
    );
    const put = fc.record({
      garbage,
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      inPlace: fc.boolean(),
    });
    await fc.assert(
      fc.asyncProperty(randomRun(shape), put, async (run, injection) => {
        await writeRun(path, run.names, [toChunk(run)], { overwrite: true });
        const bytes = readFileSync(path);
        const ends = [...bytes.keys()].filter((i) => bytes[i] === LINE_FEED).map((i) => i + 1);
        const at = Math.floor(injection.at * (bytes.length - 1));
        const behind = injection.inPlace
          ? Math.min(bytes.length, at + injection.garbage.length)
          : at;
        const torn = Buffer.concat([
          bytes.subarray(0, at),
          injection.garbage,
          bytes.subarray(behind),
        ]);
        if (torn.equals(bytes)) return;
        writeFileSync(path, torn);
        const out = await readOut(path);
        const spared = run.rows.filter((_, row) => {
          const [start, end] = [ends[row]!, ends[row + 1]!];
          return end <= at || start > behind;
        });
        const got = new Set(out.rows.map((row) => row.join()));
        for (const { integers } of spared) expect(got).toContain(integers.join());
      }),
      { numRuns: 200, seed: 6032 },
    );
  });

  test('a damaged header is taken from the metadata; without them the file is no run', async () => {
    const path = scratch.path('head.csv');
    const names = ['time_ms', 'throttle_us', 'steer_us'];
    const rows = [{ integers: [0, 1, 2], texts: [] }];
    await writeRun(path, names, [toChunk({ names, rows })]);
    writeFileSync(path, readFileSync(path, 'latin1').replace('throttle', 'thr\0\0tle'));
    const out = await readOut(path);
    expect(out.rows).toEqual([[0, 1, 2]]);
    expect(out.issues.map(({ kind }) => kind)).toEqual(['header']);
    rmSync(metadataPath(path));
    expect((await rejection(readOut(path))).message).toContain(
      'A run begins with a line of column',
    );
  });
});
