import { existsSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { type ImportOptions, importRun } from '../../harness/runs/import-run.ts';
import { readRunMetadata } from '../../harness/runs/read-run-metadata.ts';
import { metadataPath } from '../../harness/runs/run-metadata.ts';
import { Layout } from '../../lib/codes.ts';
import { createScratch, readOut, rejection, told } from './scratch.ts';

const scratch = createScratch();
const PLAIN = {
  time: { from: 'time', unit: 'ms' },
  columns: { throttle_us: { from: 'gas' }, steer_us: { from: 'wheel' } },
};

/** Imports a log by a mapping and reads what came of it. */
async function imported(log: string | Uint8Array, mapping: object, options: ImportOptions = {}) {
  const path = scratch.path('run.csv');
  const report = await importRun(
    scratch.put('log.csv', log),
    scratch.put('mapping.json', JSON.stringify(mapping)),
    path,
    { mode: 'lenient', overwrite: true, ...options },
  );
  const { rows, texts, names } = await readOut(path);
  return { report, rows, texts, names, told: told(report.issues) };
}

test('a log of which no row can be read makes no run, and replaces none', async () => {
  const good = 'time,gas,wheel\n0,1500,1500\n';
  expect((await imported(good, PLAIN)).rows).toHaveLength(1);
  const error = await rejection(imported(good.replace('\n0', '\nnoon'), PLAIN));
  expect(error).toBeInstanceOf(UserError);
  expect(error.message).toContain('No row could be read; nothing was written.');
  expect((await readOut(scratch.path('run.csv'))).rows).toEqual([[0, 1500, 1500]]);
});

test('columns in which no sample is a likely one are told of', async () => {
  const columns = { ...PLAIN.columns, battery_mv: { from: 'pack' } };
  const log = 'time,gas,wheel,pack\n0,0,0,8.2\n10,40,-10,8.1\n';
  const wrong = await imported(log, { ...PLAIN, columns });
  expect(
    wrong.report.notes.map(({ field, message, cure }) => `${field} ${message} ${cure}`),
  ).toEqual([
    expect.stringMatching(/^throttle_us lies between 0 and 40 µs, .*Give scale and offset in/),
    expect.stringMatching(/^steer_us lies between -10 and 0 µs/),
    expect.stringMatching(/^battery_mv lies between 8 and 8 mV, .*Give unit in the mapping/),
  ]);
  expect(wrong.rows).toHaveLength(2);
  const scaled = { scale: 5, offset: 1500 };
  const right = {
    throttle_us: { from: 'gas', ...scaled },
    steer_us: { from: 'wheel', ...scaled },
    battery_mv: { from: 'pack', unit: 'V' },
  };
  expect((await imported(log, { ...PLAIN, columns: right })).report.notes).toEqual([]);
});

describe('what a log may look like', () => {
  const rows = [
    [0, 1500, 1500],
    [10, 1600, 1450],
  ];
  const text = 'time,gas,wheel\n0,1500,1500\n10,1600,1450\n';

  test('delimiters', async () => {
    for (const delimiter of [',', ';', '\t', '|', ' ', '^', ']', '\\', '*']) {
      const log = text.replaceAll(',', delimiter);
      expect((await imported(log, { ...PLAIN, delimiter })).rows).toEqual(rows);
    }
  });

  test('encodings, with and without byte order mark', async () => {
    const mapping = { ...PLAIN, time: { from: 'Zeit µs', unit: 'µs' } };
    const log = text.replace('time', 'Zeit µs').replace('\n10,', '\n10000,');
    const swapped = Buffer.from(`\uFEFF${log}`, 'utf16le').swap16();
    const files: [string, Uint8Array][] = [
      ['utf-8', Buffer.from(log)],
      ['utf-8', Buffer.from(`\uFEFF${log}`)],
      ['latin1', Buffer.from(log, 'latin1')],
      ['utf-16', Buffer.from(log, 'utf16le')],
      ['utf-16', Buffer.from(`\uFEFF${log}`, 'utf16le')],
      ['utf-16', swapped],
    ];
    for (const [encoding, bytes] of files) {
      expect((await imported(bytes, { ...mapping, encoding })).rows).toEqual(rows);
    }
  });

  test('the wrong encoding is told, not guessed', async () => {
    const bytes = Buffer.from(text, 'utf16le');
    const error = await rejection(imported(bytes, PLAIN));
    expect(error).toBeInstanceOf(UserError);
    expect(error.message).toContain('Check "encoding"');
  });

  test('preamble, comments, a line of units, blank lines, a delimiter too many', async () => {
    const log =
      'Logger "3\n\n# made up\ntime,gas,wheel\nms,us,us\n0,1500,1500,\n# pause ' +
      '"\n\n10,1600,1450\n';
    const out = await imported(log, { ...PLAIN, skipLines: 1, comment: '#', skipAfterHeader: 1 });
    expect(out.rows).toEqual(rows);
    expect(out.told).toEqual(['8: blank-line: Blank line, passed over.']);
  });

  test('no header: columns by number', async () => {
    const out = await imported('1500,0,1500\n1600,10,1450\n', {
      header: false,
      time: { from: 2, unit: 'ms' },
      columns: { throttle_us: { from: 1 }, steer_us: { from: 3 } },
    });
    expect(out.rows).toEqual(rows);
  });

  test('spaces round a header do not matter; a quoted header may hold the delimiter', async () => {
    const log = '"time, s"; gas ;wheel\n0;1500;1500\n0,01;1600;1450\n';
    const mapping = {
      ...PLAIN,
      delimiter: ';',
      decimal: ',',
      time: { from: 'time, s', unit: 's' },
    };
    expect((await imported(log, mapping)).rows).toEqual(rows);
  });
});

describe('values', () => {
  test('every unit, with its sign and its rounding', async () => {
    const columns = {
      throttle_us: { from: 'a', unit: 'ms' },
      steer_us: { from: 'b', scale: 5, negate: true, offset: 1500 },
      battery_mv: { from: 'c', unit: 'V' },
      current_left_ma: { from: 'd', unit: 'A', negate: true },
      yaw_rate_mrad_s: { from: 'e', unit: 'deg/s' },
      steer_permille: { from: 'f', unit: '%' },
    };
    const log = 't,a,b,c,d,e,f\n0,1.5,-20,7.8125,0.2505,180,-12.35\n';
    const { rows, names } = await imported(log, { time: { from: 't', unit: 's' }, columns });
    expect(names).toEqual(['time_ms', ...Object.keys(columns)]);
    // 180 deg/s is pi rad/s; -0.2505 A and -123.5 permille round away from zero.
    expect(rows).toEqual([[0, 1500, 1600, 7813, -251, 3142, -124]]);
  });

  test('a mirrored log gives the mirrored run, whatever the rounding', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true })),
        async (values) => {
          const log = (sign: number) =>
            `t,a,b\n${values.map((value, row) => `${row},${sign * value},0\n`).join('')}`;
          const mapping = {
            time: { from: 't', unit: 'ms' },
            columns: { throttle_us: { from: 'a', scale: 0.37 }, steer_us: { from: 'b' } },
          };
          const left = (await imported(log(1), mapping)).rows.map((row) => row[1]!);
          const right = (await imported(log(-1), mapping)).rows.map((row) => 0 - row[1]!);
          expect(right).toEqual(left);
        },
      ),
      { numRuns: 15, seed: 6041 },
    );
  });

  test.each([
    [{ decimal: ',' }, '1500,6', 1501],
    [{ decimal: ',', group: '.' }, '1.500,6', 1501],
    [{ group: ',' }, '1,500.6', 1501],
    [{ group: ' ' }, '1 500', 1500],
    [{}, '+1.5e3', 1500],
    [{}, '.5', 1],
    [{}, ' 1500 ', 1500],
    [{}, '1500.', 1500],
  ])('with %j the text %s is %d', async (marks, text, value) => {
    const { rows } = await imported(`time;gas;wheel\n0;${text};0\n`, {
      ...PLAIN,
      ...marks,
      delimiter: ';',
    });
    expect(rows).toEqual([[0, value, 0]]);
  });

  test.each([
    [{ decimal: ',' }, '1500.6'],
    [{}, '1500,6'],
    [{ group: ',' }, '1,50'],
    [{ group: '.', decimal: ',' }, '1.50'],
    [{}, '1500 us'],
    [{}, '.'],
    [{}, '0x10'],
    [{}, 'Infinity'],
    [{}, '--'],
  ])('with %j the text %s is no number, and the row is lost', async (marks, text) => {
    const { rows, report } = await imported(`time;gas;wheel\n0;${text};0\n5;1;1\n`, {
      ...PLAIN,
      ...marks,
      delimiter: ';',
    });
    expect(rows).toEqual([[0, 1, 1]]);
    expect(report.issues.map(({ kind, line, field }) => [kind, line, field])).toEqual([
      ['not-a-number', 2, 'throttle_us'],
    ]);
  });

  test('what stands for a missing sample becomes one', async () => {
    const columns = { ...PLAIN.columns, battery_mv: { from: 'v', unit: 'V', missing: ['', '-'] } };
    const out = await imported('time,gas,wheel,v\n0,1,1,\n1,1,1,-\n2,1,1,8\n', {
      ...PLAIN,
      columns,
    });
    expect(out.rows.map((row) => row[3])).toEqual([-32768, -32768, 8000]);
    expect(out.told).toEqual([]);
  });

  test('a value beyond 32 bits, or that reads as a missing sample, is lost and told', async () => {
    const out = await imported(
      'time,gas,wheel\n0,3e9,1\n1,-32768,1\n2,1,1\n3000000000,1,1\n',
      PLAIN,
    );
    expect(out.rows).toEqual([[0, 1, 1]]);
    expect(out.told).toEqual([
      '2: out-of-range: throttle_us: "3e9" gives 3000000000, which does not fit 32 bits.',
      '3: out-of-range: throttle_us: "-32768" gives -32768, ' +
        'which would be taken for a missing sample.',
      '5: out-of-range: time_ms: 2999999998 ms from the start do not fit 32 bits.',
    ]);
  });

  test('columns to be kept stay text, quotes and all', async () => {
    const log = 'time,lap,gas,wheel,note\n0,1,1,1,"a ""b"", c"\n';
    const some = await imported(log, { ...PLAIN, keep: ['note'] });
    expect([some.names.at(-1), some.texts]).toEqual(['note', [['a "b", c']]]);
    const all = await imported(log, { ...PLAIN, keep: 'all' });
    expect([all.names.slice(3), all.texts]).toEqual([['lap', 'note'], [['1', 'a "b", c']]]);
  });
});

describe('time', () => {
  const read = async (time: object, header: string, cells: string[]): Promise<number[]> => {
    const log = `${header};gas;wheel\n${cells.map((cell) => `${cell};1;1\n`).join('')}`;
    return (await imported(log, { ...PLAIN, delimiter: ';', time })).rows.map((row) => row[0]!);
  };

  test('a number in any unit, from the first row or as it is', async () => {
    expect(await read({ from: 't', unit: 's' }, 't', ['12.5', '12.5104'])).toEqual([0, 10]);
    expect(await read({ from: 't', unit: 'min' }, 't', ['1', '1.5'])).toEqual([0, 30_000]);
    expect(await read({ from: 't', unit: 's', fromStart: false }, 't', ['12.5'])).toEqual([12_500]);
    expect(await read({ from: 't', unit: 's' }, 't', ['1764063371.11', '1764063371.12'])).toEqual([
      0, 10,
    ]);
  });

  test('date and time in two columns, or in one', async () => {
    const format = 'dd.MM.yyyy HH:mm:ss.SSS';
    expect(
      await read({ from: ['d', 't'], format }, 'd;t', [
        '31.12.2025;23:59:59.990',
        '01.01.2026;00:00:00.000',
      ]),
    ).toEqual([0, 10]);
    expect(
      await read({ from: 'at', format: "yyyy-MM-dd'T'HH:mm:ss.SSS" }, 'at', [
        '2026-03-07T19:30:00.000',
        '2026-03-07T19:30:00.020',
      ]),
    ).toEqual([0, 20]);
  });

  test('the zone decides over the hours that a clock change leaves out', async () => {
    // By the IANA time zone database clocks in London went from 01:00 to 02:00 on 29 March 2026.
    const cells = ['2026-03-29 00:59:59', '2026-03-29 02:00:00'];
    const format = 'yyyy-MM-dd HH:mm:ss';
    expect(await read({ from: 'at', format, zone: 'Europe/London' }, 'at', cells)).toEqual([
      0, 1000,
    ]);
    expect(await read({ from: 'at', format }, 'at', cells)).toEqual([0, 3_601_000]);
  });

  test('a time of day that passes midnight runs back, is told, and can be rebased', async () => {
    const log = 'time,gas,wheel\n23:59:59.980,1,1\n23:59:59.990,1,1\n00:00:00.000,1,1\n';
    const mapping = { ...PLAIN, time: { from: 'time', format: 'HH:mm:ss.SSS' } };
    const kept = await imported(log, mapping);
    expect(kept.report.issues.map(({ kind, repair }) => [kind, repair])).toEqual([
      ['clock-restart', { name: 'rebase', done: false }],
    ]);
    const mended = await imported(log, mapping, { repairs: ['rebase'] });
    expect(mended.rows.map(([time]) => time)).toEqual([0, 10, 20]);
  });

  test('a time that does not fit the format is lost and told', async () => {
    const mapping = { ...PLAIN, time: { from: 'time', format: 'HH:mm:ss' } };
    const out = await imported('time,gas,wheel\n25:00:00,1,1\n10:00,1,1\n10:00:00,1,1\n', mapping);
    expect(out.rows).toHaveLength(1);
    expect(out.report.issues.map(({ kind, line, field }) => [kind, line, field])).toEqual([
      ['not-a-number', 2, 'time_ms'],
      ['not-a-number', 3, 'time_ms'],
    ]);
  });
});

describe('the report and the run', () => {
  test('rows in = rows out + losses + rows a repair left out; each loss has its line', async () => {
    const log = 'time,gas,wheel\n0,1,1\n0,1,1\n10,x,1\n20,1\n30,1,1\n40,1';
    const out = await imported(log, PLAIN, { repairs: ['drop'] });
    expect(out.report).toMatchObject({ rowsIn: 6, rowsOut: 2, losses: 3, issueCount: 4 });
    expect(out.report.issues.map(({ kind, line }) => [kind, line])).toEqual([
      ['clock-duplicate', 3],
      ['not-a-number', 4],
      ['ragged', 5],
      ['torn-end', 7],
    ]);
  });

  test('strict: one lost row and no run comes of the log', async () => {
    const path = scratch.path('strict.csv');
    const log = scratch.put('strict-log.csv', 'time,gas,wheel\n0,1,1\n10,x,1\n');
    const mapping = scratch.put('strict.json', JSON.stringify(PLAIN));
    const error = await rejection(importRun(log, mapping, path));
    expect(error).toBeInstanceOf(UserError);
    expect(error.message).toContain('strict-log.csv:3: throttle_us: found "x"');
    expect([path, metadataPath(path), `${path}.partial`].filter(existsSync)).toEqual([]);
  });

  test('an existing run is not replaced unless told so', async () => {
    const path = scratch.put('mine.csv', 'mine');
    const log = scratch.put('mine-log.csv', 'time,gas,wheel\n0,1,1\n');
    const mapping = scratch.put('mine.json', JSON.stringify(PLAIN));
    expect((await rejection(importRun(log, mapping, path))).message).toContain('already');
    expect(scratch.text('mine.csv')).toBe('mine');
  });

  test('what the mapping says of the run stands in its metadata', async () => {
    const run = { layout: 'tracked', vehicle: 'forwarder', surface: 'gravel', notes: ['wet'] };
    await imported('time,gas,wheel\n0,1,1\n', { ...PLAIN, run });
    expect(await readRunMetadata(scratch.path('run.csv'))).toEqual({
      layout: Layout.TRACKED,
      vehicle: 'forwarder',
      surface: 'gravel',
      notes: ['wet'],
      origin: 'Imported from log.csv by mapping.json.',
      rows: 1,
      columns: ['time_ms', 'throttle_us', 'steer_us'],
    });
  });

  test('a log longer than any buffer', async () => {
    const lines = Array.from({ length: 30_000 }, (_, row) => `${row * 10};"${row % 9}";-${row}`);
    const log = `time;gas;wheel\r\n${lines.join('\r\n')}\r\n`;
    const out = await imported(log, { ...PLAIN, delimiter: ';' }, { mode: 'strict' });
    expect(out.report.rowsOut).toBe(30_000);
    expect(out.rows[29_999]).toEqual([299_990, 29_999 % 9, -29_999]);
  });
});
