import { describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { importRun } from '../../harness/runs/import-run.ts';
import { readMapping } from '../../harness/runs/read-mapping.ts';
import { createScratch, rejection } from './scratch.ts';

const scratch = createScratch();
const GOOD = {
  time: { from: 'time', unit: 'ms' },
  columns: { throttle_us: { from: 'gas' }, steer_us: { from: 'wheel' } },
};

/** Problems of a mapping, as `field: message cure`. */
async function problems(mapping: unknown): Promise<string[]> {
  const path = scratch.put('mapping.json', JSON.stringify(mapping));
  const error = await rejection(readMapping(path));
  expect(error).toBeInstanceOf(UserError);
  return (error as UserError).problems.map(({ file, field, message, cure = '' }) => {
    expect(file).toBe(path);
    return `${field}: ${message} ${cure}`.trimEnd();
  });
}

test('a good mapping gets its defaults', async () => {
  const path = scratch.put('good.json', JSON.stringify(GOOD));
  expect(await readMapping(path)).toMatchObject({
    encoding: 'utf-8',
    delimiter: ',',
    decimal: '.',
    skipLines: 0,
    header: true,
    time: { zone: 'utc', fromStart: true },
    columns: { throttle_us: { scale: 1, offset: 0, negate: false, missing: [''] } },
    keep: [],
  });
});

describe('each error names the field and what was expected', () => {
  test.each([
    [{ ...GOOD, delimeter: ';' }, 'delimeter: unknown field. Did you mean "delimiter"?'],
    [{ ...GOOD, delimiter: ';;' }, 'delimiter: expected one character that no number contains'],
    [{ ...GOOD, delimiter: '.' }, 'delimiter: expected one character that no number contains'],
    [{ ...GOOD, encoding: 'ascii' }, 'encoding: found "ascii", expected ("utf-8"'],
    [{ ...GOOD, decimal: ',', group: ',' }, 'group: is the decimal mark as well.'],
    [{ ...GOOD, skipLines: '3' }, 'skipLines: found "3", expected a number.'],
    [{ ...GOOD, skipLines: -1 }, 'skipLines: '],
    [{ columns: GOOD.columns }, 'time: missing, expected'],
    [{ ...GOOD, time: { from: 'time' } }, 'time: neither "unit" nor "format".'],
    [{ ...GOOD, time: { from: 'time', unit: 'days' } }, 'time.unit: found "days", expected'],
    [{ ...GOOD, time: { from: ['a', 'b'], unit: 's' } }, 'time.format: missing for two columns.'],
    [{ ...GOOD, time: { from: 'a', format: 'qqq' } }, 'time.format: holds no time of day'],
    [{ ...GOOD, time: { from: 'a', format: 'hh:mm:ss' } }, 'time.format: holds no time of day'],
    [
      { ...GOOD, time: { from: 'a', format: 'dd.MM. HH:mm' } },
      'time.format: holds a part of a date',
    ],
    [
      { ...GOOD, time: { from: 'a', format: 'HH:mm', zone: 'Hall/Floor' } },
      'time.zone: found "Hall/Floor", expected an IANA name',
    ],
    [
      { ...GOOD, columns: { ...GOOD.columns, batery_mv: { from: 'v' } } },
      'columns.batery_mv: no column of the core. Did you mean "battery_mv"?',
    ],
    [
      { ...GOOD, columns: { ...GOOD.columns, time_ms: { from: 't' } } },
      'columns.time_ms: has no place here. Describe it under "time".',
    ],
    [
      { ...GOOD, columns: { ...GOOD.columns, battery_mv: { from: 'v', unit: 'A' } } },
      'columns.battery_mv.unit: found "A", expected mV, V.',
    ],
    [
      { ...GOOD, columns: { ...GOOD.columns, slot: { from: 'v', unit: 'A' } } },
      'columns.slot.unit: found "A", expected none.',
    ],
    [
      {
        ...GOOD,
        columns: { ...GOOD.columns, current_motor_ma: { from: 'i' } },
        run: { layout: 'pair' },
      },
      'columns.current_motor_ma: no column of the layout "pair".',
    ],
    [{ ...GOOD, columns: { steer_us: { from: 'b' } } }, 'columns.throttle_us: missing.'],
    [{ ...GOOD, header: false }, 'columns.throttle_us.from: the log has no header.'],
    [{ ...GOOD, columns: { ...GOOD.columns, slot: { from: 0 } } }, 'columns.slot.from: '],
    [{ ...GOOD, run: { layout: 'trike' } }, 'run.layout: found "trike", expected'],
    [3, ': found 3, expected fields in { }.'],
  ])('%j', async (mapping, expected) => {
    const found = await problems(mapping);
    expect(
      found.some((problem) => problem.includes(expected)),
      found.join('\n'),
    ).toBe(true);
  });

  test('all of them at once', async () => {
    const found = await problems({
      ...GOOD,
      time: { from: 'a', format: 'HH:mm', unit: 's', zone: 'x' },
      columns: { foo: { from: 'a' } },
    });
    expect(found).toHaveLength(5);
  });

  test('no such mapping; no JSON, with its line', async () => {
    expect((await rejection(readMapping(scratch.path('none.json')))).message).toContain(
      'no such file',
    );
    const path = scratch.put('broken.json', '{\n"time": }\n');
    expect((await rejection(readMapping(path))).message).toMatch(/broken\.json:2: is no JSON/);
  });
});

describe('a mapping that does not fit the log', () => {
  const found = async (log: string, mapping: object): Promise<string[]> => {
    const error = await rejection(
      importRun(
        scratch.put('log.csv', log),
        scratch.put('fit.json', JSON.stringify(mapping)),
        scratch.path('out.csv'),
      ),
    );
    expect(error).toBeInstanceOf(UserError);
    return (error as UserError).problems.map(
      ({ field, message, cure }) => `${field}: ${message.replace(/^.*log\.csv/, 'LOG')} ${cure}`,
    );
  };

  test('missing columns are named with the nearest header, all at once', async () => {
    expect(await found('Time,Gass,whel\n', GOOD)).toEqual([
      'columns.throttle_us.from: LOG has no column "gas". Did you mean "Gass"?',
      'columns.steer_us.from: LOG has no column "wheel". Did you mean "whel"?',
      'time.from: LOG has no column "time". Did you mean "Time"?',
    ]);
  });

  test('no header near: all are listed; a number too high; a header standing twice', async () => {
    const columns = { throttle_us: { from: 9 }, steer_us: { from: 'wheel' } };
    expect(await found('zz,wheel,wheel\n', { ...GOOD, columns })).toEqual([
      'columns.throttle_us.from: LOG has no column 9. It has 3 columns.',
      'columns.steer_us.from: LOG has two columns "wheel". Give its number, from 1.',
      'time.from: LOG has no column "time". It has: zz, wheel, wheel.',
    ]);
  });

  test('columns to be kept that would be taken for others', async () => {
    const log = 'time,gas,wheel,battery_mv,x,x\n';
    expect(await found(log, { ...GOOD, keep: 'all' })).toEqual([
      'keep: "battery_mv" is a column of the core. Describe it under "columns", ' +
        'or list only other columns to keep.',
      'keep: "x" stands twice in the header. Describe it under "columns", ' +
        'or list only other columns to keep.',
      'keep: "x" stands twice in the header. Describe it under "columns", ' +
        'or list only other columns to keep.',
    ]);
  });

  test('a log that ends before its header', async () => {
    expect((await found('a\nb\n', { ...GOOD, skipLines: 7 }))[0]).toContain('Check "encoding"');
  });
});
