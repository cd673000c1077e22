import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readRecords } from '../../harness/runs/read-records.ts';
import type { RecordShape } from '../../harness/runs/record-shape.ts';
import { openText } from '../../harness/runs/text-source.ts';
import { writeRun } from '../../harness/runs/write-run.ts';
import { toChunk } from '../runs/random-run.ts';
import { createScratch } from '../runs/scratch.ts';

// Source: RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files",
// October 2005, section 2: its seven rules, their examples and its ABNF. Quoted from memory; the
// RFC marks its line breaks as CRLF, here they are \r\n.

const scratch = createScratch();
const CSV: RecordShape = { delimiter: ',', columns: 0, multiline: true, breakDue: false };

/** Reads a text as a file; records, and the kinds of what was wrong. */
async function read(text: string): Promise<{ records: string[][]; kinds: string[] }> {
  const source = await openText(scratch.put('rfc.csv', text), 'utf-8');
  const records: string[][] = [];
  const kinds: string[] = [];
  try {
    for await (const batch of readRecords(source, CSV)) {
      batch.forEach((record) => void records.push(record));
      kinds.push(...batch.issues.map(({ kind }) => kind));
    }
  } finally {
    await source.close();
  }
  return { records, kinds };
}

describe('RFC 4180, section 2: the examples of its rules', () => {
  const ABC = ['aaa', 'bbb', 'ccc'];
  const ZYX = ['zzz', 'yyy', 'xxx'];

  test.each([
    ['1: each record is on a line of its own', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n', [ABC, ZYX]],
    ['2: the last one may lack a line break', 'aaa,bbb,ccc\r\nzzz,yyy,xxx', [ABC, ZYX]],
    [
      '3: a header has the format of a record',
      'field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [['field_name', 'field_name', 'field_name'], ABC, ZYX],
    ],
    ['4: fields are parted by commas', 'aaa,bbb,ccc', [ABC]],
    ['4: spaces are part of a field', ' aaa , bbb,ccc \r\n', [[' aaa ', ' bbb', 'ccc ']]],
    [
      '5: fields may be enclosed in quotes or not',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx\r\n',
      [ABC, ZYX],
    ],
    [
      '6: quoted fields may hold line breaks',
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx\r\n',
      [['aaa', 'b\r\nbb', 'ccc'], ZYX],
    ],
    ['6: and commas', '"a,a","b","c"\r\n', [['a,a', 'b', 'c']]],
    ['7: a quote in a quoted field is doubled', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('rule %s', async (_, text, records) => {
    expect(await read(text)).toEqual({ records, kinds: [] });
  });

  test('rule 5: quotes may not appear inside a field that is not quoted', async () => {
    expect(await read('aaa,b"bb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual({
      records: [ZYX],
      kinds: ['malformed'],
    });
  });
});

describe('RFC 4180, section 2: the ABNF', () => {
  // TEXTDATA = %x20-21 / %x23-2B / %x2D-7E
  const textdata = fc
    .integer({ min: 0x20, max: 0x7e })
    .filter((code) => code !== 0x22 && code !== 0x2c)
    .map((code) => String.fromCharCode(code));
  // non-escaped = *TEXTDATA
  const bare = fc.array(textdata, { maxLength: 5 }).map((parts) => parts.join(''));
  // escaped = DQUOTE *(TEXTDATA / COMMA / CR / LF / 2DQUOTE) DQUOTE
  const inside = fc.array(fc.oneof(textdata, fc.constantFrom(',', '\r', '\n', '"')), {
    maxLength: 5,
  });
  const field = fc.oneof(
    bare.map((value) => ({ written: value, value })),
    inside.map((parts) => ({
      written: `"${parts.map((part) => (part === '"' ? '""' : part)).join('')}"`,
      value: parts.join(''),
    })),
  );
  // file = [header CRLF] record *(CRLF record) [CRLF]; record = field *(COMMA field). Two fields
  // at least: the grammar cannot tell a record of one empty field from a blank line.
  const file = fc.integer({ min: 2, max: 4 }).chain((width) =>
    fc.record({
      records: fc.array(fc.array(field, { minLength: width, maxLength: width }), { minLength: 1 }),
      ending: fc.constantFrom('', '\r\n'),
    }),
  );

  test('any file the grammar makes is read to the fields it was made of', async () => {
    await fc.assert(
      fc.asyncProperty(file, async ({ records, ending }) => {
        const lines = records.map((record) => record.map(({ written }) => written).join(','));
        const { records: found, kinds } = await read(lines.join('\r\n') + ending);
        expect(found).toEqual(records.map((record) => record.map(({ value }) => value)));
        expect(kinds).toEqual([]);
      }),
      { numRuns: 400, seed: 4180 },
    );
  });

  test.each([
    ['text behind a closing quote', '"aaa"b,ccc'],
    ['a quote behind a space', ' "aaa",ccc'],
    ['a quote that is not doubled', '"a"a",ccc'],
    ['a carriage return in a field that is not quoted', 'a\ra,ccc'],
    ['a quote that is never closed', '"aaa,ccc'],
  ])('not in the grammar: %s', async (_, line) => {
    const { records, kinds } = await read(`${line}\r\nzzz,xxx\r\n`);
    expect(records).toEqual([['zzz', 'xxx']]);
    expect(kinds).toEqual(['malformed']);
  });

  test('what we write is a file of the grammar', async () => {
    // The ABNF for ASCII text, written out as one expression, apart from the reader's own.
    const name = '(?:"(?:[\\x20-\\x21\\x23-\\x2B\\x2D-\\x7E]|,|\\r|\\n|"")*"|[ !#-+\\x2D-~]*)';
    const record = `${name}(?:,${name})*`;
    const grammar = new RegExp(`^${record}\\r\\n${record}(?:\\r\\n${record})*(?:\\r\\n)?$`);
    const text = fc.string({ unit: fc.constantFrom('"', ',', '\r', '\n', ' ', 'x'), maxLength: 6 });
    const path = scratch.path('ours.csv');
    const names = ['time_ms', 'throttle_us', 'steer_us', 'note'];
    await fc.assert(
      fc.asyncProperty(fc.array(text, { minLength: 1, maxLength: 5 }), async (notes) => {
        const rows = notes.map((note, at) => ({ integers: [at, -at | 0, 1500], texts: [note] }));
        await writeRun(path, names, [toChunk({ names, rows })], { overwrite: true });
        expect(scratch.text('ours.csv')).toMatch(grammar);
      }),
      { numRuns: 50, seed: 4181 },
    );
  });
});
