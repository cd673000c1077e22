import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { runHere } from './said.ts';

const HATCH = demoGarage('hatch');
const WHOLE_RUN = readFileSync(join(HATCH, 'runs/hall-evening.csv'), 'utf8');
/** Its first 15 s. */
const DEMO_RUN = `${WHOLE_RUN.split('\r\n').slice(0, 1501).join('\r\n')}\r\n`;

const folder = mkdtempSync(join(tmpdir(), 'axlewright-mistaken-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Replays the demo run with every row changed, its header too. */
function replay(name: string, change: (cells: string[], row: number) => string, ...more: string[]) {
  const path = join(folder, name);
  const lines = DEMO_RUN.split('\r\n').filter((line) => line !== '');
  writeFileSync(path, `${lines.map((line, row) => change(line.split(','), row)).join('\r\n')}\r\n`);
  return runHere(['replay', path, '--garage', HATCH, '--setup', 'vinyl', ...more]);
}

/** The same with each time stamp changed. */
const timed = (of: (ms: number) => number | string) => (cells: string[], row: number) =>
  [row === 0 ? cells[0] : of(Number(cells[0])), ...cells.slice(1)].join();

describe('a time in another unit takes one line', () => {
  test.each([
    ['s', timed((ms) => Math.floor(ms / 1000))],
    ['µs', timed((ms) => 1000 * ms)],
  ])('whole %s', async (unit, change) => {
    const { out } = await replay('time.csv', change);
    const told = out.split('\n').filter((line) => line.includes('time.csv:'));
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(`of 1499 steps, as if it were in ${unit}; expected ms.`);
  });

  test('s with decimals, of which nothing is left', async () => {
    const change = timed((ms) => (ms / 1000).toFixed(3));
    const { code, error } = await replay('decimals.csv', change, '--lenient');
    expect(code).toBe(2);
    expect(error.trimEnd().split('\n')).toEqual([
      expect.stringContaining('expected whole ms. 1500 such lines: 2 to 1501.'),
      expect.stringContaining('holds no tick that could be replayed. Mend what is told above.'),
    ]);
  });
});

describe('another mark between the columns is told as that', () => {
  const MARKS = [
    [';', 'semicolons', '";"'],
    ['\t', 'tabs', '"\\t"'],
  ] as const;

  test.each(MARKS)('in a run: %j', async (mark, name, written) => {
    const { code, error } = await replay('marks.csv', (cells) => cells.join(mark));
    expect(code).toBe(2);
    expect(error.trimEnd().split('\n')).toHaveLength(1);
    expect(error).toContain(`marks.csv:1: header: ${name} stand between the columns, expected`);
    expect(error).toContain(`a mapping with "delimiter": ${written}`);
  });

  test.each(MARKS)('in a log to be imported: %j', async (mark, name, written) => {
    const [log, mapping] = [join(folder, 'log.csv'), join(folder, 'map.json')];
    writeFileSync(log, ['t,gas,turn', '0,1500,1500', ''].join('\n').replaceAll(',', mark));
    const columns = { throttle_us: { from: 'gas' }, steer_us: { from: 'turn' } };
    writeFileSync(mapping, JSON.stringify({ time: { from: 't', unit: 'ms' }, columns }));
    const { code, error } = await runHere(['import', log, mapping, join(folder, 'out.csv')]);
    expect(code).toBe(2);
    expect(error.trimEnd()).toMatch(
      `map.json: delimiter: found ",", but ${name} stand in ${log}. Write "delimiter": ${written}.`,
    );
  });

  test('a run whose description was left beside it by a spreadsheet', async () => {
    const metadata = readFileSync(join(HATCH, 'runs/hall-evening.csv-metadata.json'), 'utf8');
    const own = metadata.replace('hall-evening.csv', 'sheet.csv');
    writeFileSync(join(folder, 'sheet.csv-metadata.json'), own);
    const { error } = await replay('sheet.csv', (cells) => cells.join(';'));
    expect(error.trimEnd().split('\n')).toHaveLength(1);
    expect(error).toContain('sheet.csv:1: header: semicolons stand');
  });
});

/** The demo run without some of its columns, or with them empty. */
const bare = (gone: RegExp, empty: RegExp) => {
  const header = DEMO_RUN.split('\r\n', 1)[0]!.split(',');
  return (cells: string[], row: number) =>
    cells
      .map((cell, i) => (row > 0 && empty.test(header[i]!) ? '' : cell))
      .filter((_, i) => !gone.test(header[i]!))
      .join();
};

test('sensors that the vehicle has and the run has not are told, whole and in part', async () => {
  const change = bare(/^battery|^current_left|^wheel/, /^yaw_rate/);
  const report = join(folder, 'bare.html');
  const { code, out } = await replay('bare.csv', change, '--report', report);
  expect(code).toBe(0);
  const told = [
    'The run holds no sample of battery_mv, though sensors.supply is true: ' +
      'low supply goes unseen; the blind cap of 40 % is on.',
    'The run holds no sample of current_left_ma, though sensors.current is true: ' +
      'no finding, current ceiling, stall time or heat for that motor; ' +
      'the blind cap of 40 % is on.',
    'The run holds no sample of yaw_rate_mrad_s, though sensors.gyro is true: ' +
      'there is no yaw assist.',
  ];
  for (const sentence of told) {
    expect(out).toContain(sentence);
    expect(readFileSync(report, 'utf8')).toContain(sentence);
  }
  expect(out).not.toContain('wheel_left_deg_s');
  // What the core flags of it is said by these already.
  expect(out).not.toMatch(/The gyro is silent|A sensor gives no sample/);
  expect((await replay('whole.csv', (cells) => cells.join())).out).not.toContain('no sample of');
});

test('a run without ages says what it cannot show', async () => {
  const header = DEMO_RUN.split('\r\n')[0]!.split(',');
  const at = header.indexOf('input_age_ms');
  const without = (cells: string[]) => cells.filter((_, i) => i !== at).join();
  const sentence = 'No tick has an input_age_ms other than 0';
  expect((await replay('ageless.csv', without)).out).toContain(sentence);
  expect((await replay('aged.csv', (cells) => cells.join())).out).not.toContain(sentence);
});

test('a file in UTF-16 is told as that', async () => {
  const path = join(folder, 'wide.csv');
  writeFileSync(path, `\ufeff${DEMO_RUN}`, 'utf16le');
  const { code, error } = await runHere(['replay', path, '--garage', HATCH]);
  expect(code).toBe(2);
  expect(error).toContain('wide.csv: Is text in UTF-16, expected UTF-8. Save it as UTF-8;');
});

test('the report tells what is left out from what is kept, each with its column', async () => {
  const report = join(folder, 'odd.html');
  const change = (cells: string[], row: number) =>
    [row === 41 ? '390' : cells[0], row === 50 ? 'x' : cells[1], ...cells.slice(2)].join();
  const { code } = await replay('odd.csv', change, '--lenient', '--report', report);
  expect(code).toBe(0);
  const [, section] = readFileSync(report, 'utf8').split('<section aria-labelledby="odds-title">');
  const cells = [...section!.split('</section>')[0]!.matchAll(/<td>(.*?)<\/td>/g)];
  expect(cells.map(([, text]) => text)).toEqual([
    'time_ms: time stands still at 390. Repair: drop.',
    'throttle_us: found &quot;x&quot;, expected an integer. Left out.',
  ]);
});

test('a decimal comma that the mapping does not name is told as that, once', async () => {
  const [log, mapping] = [join(folder, 'comma.csv'), join(folder, 'comma.json')];
  const rows = Array.from({ length: 9 }, (_, row) => `0,${row}1;1500;7,9`);
  writeFileSync(log, ['t;gas;volt', ...rows, ''].join('\n'));
  const columns = {
    throttle_us: { from: 'gas' },
    steer_us: { from: 'gas' },
    battery_mv: { from: 'volt', unit: 'V' },
  };
  const told = async (time: object) => {
    writeFileSync(mapping, JSON.stringify({ delimiter: ';', time, columns }));
    const { error } = await runHere(['import', log, mapping, join(folder, 'comma-run.csv')]);
    return error.trimEnd().split('\n').slice(0, -1);
  };
  const battery = 'battery_mv: found "7,9", expected a number. 9 such lines: 2 to 10.';
  const cure = 'Is "decimal": "," meant in the mapping?';
  expect(await told({ from: 't', unit: 's' })).toEqual([
    expect.stringContaining(`${battery} ${cure}`),
  ]);
  columns.battery_mv.from = 'gas';
  expect(await told({ from: 't', unit: 's' })).toEqual([
    expect.stringContaining(
      `time_ms: "0,01" cannot be read as the mapping has it. 9 such lines: 2 to 10. ${cure}`,
    ),
  ]);
});
