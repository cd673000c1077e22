import { describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { readRun, readRunHeader } from '../../harness/runs/read-run.ts';
import type { RunIssue } from '../../harness/runs/run-issue.ts';
import { createScratch, readOut, rejection, told } from './scratch.ts';

const scratch = createScratch();
const HEADER = 'time_ms,throttle_us,steer_us';

describe('readRun reads what is there', () => {
  test('CRLF, LF and both mixed, with or without byte order mark, give the same rows', async () => {
    const rows = [
      [0, 1500, 1490],
      [10, 1510, 1480],
    ];
    const texts = [
      `${HEADER}\r\n0,1500,1490\r\n10,1510,1480\r\n`,
      `${HEADER}\n0,1500,1490\n10,1510,1480\n`,
      `${HEADER}\r\n0,1500,1490\n10,1510,1480\r\n`,
      `\uFEFF${HEADER}\n0,1500,1490\n10,1510,1480\n`,
    ];
    for (const text of texts) {
      const out = await readOut(scratch.put('breaks.csv', text));
      expect(out.rows).toEqual(rows);
      expect(out.issues).toEqual([]);
    }
  });

  test('a column called nearly as one of the core is told of', async () => {
    const path = scratch.put('near.csv', `${HEADER},baterry_mv,lap\n0,1500,1500,7400,1\n`);
    const { issues } = await readOut(path);
    expect(issues).toMatchObject([{ kind: 'header', field: 'baterry_mv', lost: false }]);
    expect(issues[0]!.message).toContain('is it "battery_mv"?');
  });

  test('columns may stand in any order; one the core does not know is text', async () => {
    const path = scratch.put('order.csv', 'note,steer_us,time_ms,throttle_us\n"a,b",3,1,2\n');
    const out = await readOut(path);
    expect(await readRunHeader(path)).toEqual({
      names: ['note', 'steer_us', 'time_ms', 'throttle_us'],
      columns: ['steer_us', 'time_ms', 'throttle_us'],
      extra: ['note'],
    });
    expect(out.rows).toEqual([[3, 1, 2]]);
    expect(out.texts).toEqual([['a,b']]);
  });

  test('an empty field and -32768 are the same missing sample; time must be there', async () => {
    const path = scratch.put(
      'missing.csv',
      `${HEADER},battery_mv\n0,1500,1500,\n10,,1500,-32768\n,1500,1500,1\n`,
    );
    const out = await readOut(path);
    expect(out.rows).toEqual([
      [0, 1500, 1500, -32768],
      [10, -32768, 1500, -32768],
    ]);
    expect(told(out.issues)).toEqual(['4: not-a-number: time_ms: found "", expected an integer.']);
  });

  test.each([
    ['2147483647', 2147483647],
    ['-2147483648', -2147483648],
    ['-0', 0],
    ['0007', 7],
    ['"12"', 12],
  ])('%s is the integer %d', async (text, value) => {
    const out = await readOut(scratch.put('integer.csv', `${HEADER}\n0,${text},1\n`));
    expect(out.rows).toEqual([[0, value, 1]]);
    expect(Object.is(out.rows[0]![1], -0)).toBe(false);
  });

  test.each(['2147483648', '-2147483649', '9999999999', '99999999999999999999'])(
    '%s is out of range',
    async (text) => {
      const out = await readOut(scratch.put('range.csv', `${HEADER}\n0,${text},1\n`));
      expect(out.issues.map(({ kind }) => kind)).toEqual(['out-of-range']);
      expect(out.rows).toEqual([]);
    },
  );

  test.each([
    '1.0',
    '1e3',
    '0x10',
    ' 1',
    '1 ',
    '+1',
    '-',
    '--1',
    '１',
    '1_0',
    'NaN',
    'Infinity',
    '""""',
  ])('%j is no integer', async (text) => {
    const out = await readOut(scratch.put('number.csv', `${HEADER}\n0,${text},1\n`));
    expect(out.issues.map(({ kind }) => kind)).toEqual(['not-a-number']);
    expect(out.rows).toEqual([]);
  });

  test('line numbers count lines of the file, also behind quoted line breaks', async () => {
    const text = `${HEADER},note\n0,1,1,"a\nb\r\nc"\n10,1,1,x\n20,1,y,z\n`;
    const out = await readOut(scratch.put('lines.csv', text));
    expect(out.lines).toEqual([2, 5]);
    expect(out.texts).toEqual([['a\nb\r\nc'], ['x']]);
    expect(out.issues.map(({ line }) => line)).toEqual([6]);
  });

  test('a run longer than any buffer is read whole, row for row', async () => {
    const count = 40_000;
    const lines = Array.from({ length: count }, (_, row) => `${row * 10},${row % 7},${-row}`);
    const out = await readOut(scratch.put('long.csv', `${HEADER}\r\n${lines.join('\r\n')}\r\n`));
    expect(out.rows).toEqual(
      Array.from({ length: count }, (_, row) => [row * 10, row % 7, 0 - row]),
    );
    expect(out.lines[count - 1]).toBe(count + 1);
    expect(out.issues).toEqual([]);
  });

  test('it hands out many chunks of a long run, none of them large', async () => {
    const lines = Array.from({ length: 40_000 }, (_, row) => `${row * 10},1500,1500`);
    const path = scratch.put('chunks.csv', `${HEADER}\n${lines.join('\n')}\n`);
    const sizes: number[] = [];
    for await (const chunk of readRun(path)) sizes.push(chunk.rows);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBe(40_000);
    expect(Math.max(...sizes)).toBeLessThan(20_000);
  });
});

describe('readRun tells what is lost', () => {
  test('lenient: each bad row costs itself alone and is told with line and reason', async () => {
    const text = `${HEADER}\n0,1,1\n10,1\n20,1,1,1\n30,x,1\n\n40,1,1\r5\n50,1,"1\n60,1,1\n`;
    const out = await readOut(scratch.put('bad.csv', text));
    expect(out.rows.map(([time]) => time)).toEqual([0, 60]);
    expect(told(out.issues)).toEqual([
      '3: ragged: found 2 fields, expected 3.',
      '4: ragged: found 4 fields, expected 3.',
      '5: not-a-number: throttle_us: found "x", expected an integer.',
      '6: blank-line: Blank line, passed over.',
      '7: malformed: A carriage return stands inside a field that is not quoted.',
      '8: malformed: Quotes must enclose a whole field and be doubled inside it (RFC 4180, ' +
        'section 2).',
    ]);
    expect(out.issues.map(({ lost }) => lost)).toEqual([true, true, true, false, true, true]);
  });

  test('strict: the error tells bad rows of a kind once, with their lines and number', async () => {
    const bad = Array.from({ length: 25 }, (_, row) => `${row * 10},x,1`);
    const path = scratch.put('strict.csv', `${HEADER}\n${bad.join('\n')}\n300,1,1\n310,y,1\n`);
    const error = await rejection(readOut(path, { mode: 'strict' }));
    expect(error).toBeInstanceOf(UserError);
    const { problems } = error as UserError;
    expect(problems.map(({ line, message }) => [line, message])).toEqual([
      [2, 'found "x", expected an integer. 26 such lines: 2 to 26, 28.'],
      [undefined, '26 in all.'],
    ]);
  });

  test('strict is the default, and a run with nothing lost passes it', async () => {
    const good = scratch.put('good.csv', `${HEADER}\n0,1,1\n\n10,1,1\n`);
    let rows = 0;
    for await (const chunk of readRun(good)) rows += chunk.rows;
    expect(rows).toBe(2);
    const bad = scratch.put('bad2.csv', `${HEADER}\n0,1,1\n10,1\n`);
    const run = async (): Promise<void> => {
      for await (const chunk of readRun(bad)) rows += chunk.rows;
    };
    expect(await rejection(run())).toBeInstanceOf(UserError);
    expect(rows).toBe(2);
  });

  test('a line without end is lost alone, whether the buffer holds it or not', async () => {
    for (const length of [65_536, 65_537, 100_000, 300_000, 700_000]) {
      const text = `${HEADER},note\n0,1,1,a\n5,1,1,${'x'.repeat(length - 6)}\n10,1,1,b\n`;
      const out = await readOut(scratch.put('endless.csv', text));
      const fits = length <= 65_536;
      expect(out.rows.map(([time]) => time)).toEqual(fits ? [0, 5, 10] : [0, 10]);
      expect(out.issues.map(({ kind, line }) => [kind, line])).toEqual(
        fits ? [] : [['too-long', 3]],
      );
    }
  });

  test('a block of NULs, as a power cut leaves it, is told and costs its row alone', async () => {
    const text = `${HEADER}\n0,1,1\n10,1,${'\0'.repeat(5000)}1\n20,1,1\n`;
    const out = await readOut(scratch.put('nul.csv', text));
    expect(out.rows.map(([time]) => time)).toEqual([0, 20]);
    expect(out.issues.map(({ kind }) => kind)).toEqual(['not-text']);
  });

  test('bytes that are no UTF-8 never come out as other text', async () => {
    const bytes = Buffer.from(`${HEADER},note\n0,1,1,caf\xe9\n10,1,1,ok\n`, 'latin1');
    const out = await readOut(scratch.put('latin.csv', bytes));
    expect(out.texts).toEqual([['ok']]);
    expect(out.issues.map(({ kind }) => kind)).toEqual(['not-text']);
  });

  test('a stray quote in a run with text costs its row, not those to the next quote', async () => {
    const rest = Array.from({ length: 50 }, (_, row) => `${row * 10 + 10},1,1,"n, ${row}"`);
    const path = scratch.put('stray.csv', `${HEADER},note\n0,1,1,"open\n${rest.join('\n')}\n`);
    const out = await readOut(path);
    expect(out.rows).toHaveLength(50);
    expect(out.texts[49]).toEqual(['n, 49']);
    expect(out.issues.map(({ kind, line }) => [kind, line])).toEqual([['malformed', 2]]);
  });
});

describe('readRun refuses what is no run', () => {
  test('a missing column is named, with the nearest header', async () => {
    const path = scratch.put('near.csv', 'time_ms,throtle_us,steer\n0,1,1\n');
    const error = await rejection(readOut(path));
    expect(error).toBeInstanceOf(UserError);
    expect(error.message).toContain('no column "throttle_us". Is it "throtle_us"?');
    expect(error.message).toContain('no column "steer_us"');
    expect(error.message.split('\n')[0]).toContain('near.csv:1');
  });

  test('two columns of one name', async () => {
    const path = scratch.put('twins.csv', `${HEADER},steer_us\n0,1,1,1\n`);
    expect((await rejection(readOut(path))).message).toContain('two columns "steer_us"');
  });

  test('no such file; an empty one', async () => {
    expect((await rejection(readOut(scratch.path('none.csv')))).message).toContain('no such file');
    expect((await rejection(readOut(scratch.put('empty.csv', '')))).message).toContain('empty');
  });

  test('a reader may stop before the end', async () => {
    const path = scratch.put('early.csv', `${HEADER}\n0,1,1\n`);
    const issues: RunIssue[] = [];
    for await (const chunk of readRun(path, { onIssue: (issue) => issues.push(issue) })) {
      expect(chunk.rows).toBe(1);
      break;
    }
    expect(issues).toEqual([]);
  });
});
