import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatRunMetadata } from '../../harness/runs/format-run-metadata.ts';
import { readRunMetadata } from '../../harness/runs/read-run-metadata.ts';
import { runColumns } from '../../harness/runs/run-columns.ts';
import { metadataPath, type RunMetadata } from '../../harness/runs/run-metadata.ts';
import { writeRun } from '../../harness/runs/write-run.ts';
import { Layout } from '../../lib/codes.ts';
import { randomRun, runText, toChunk } from '../runs/random-run.ts';
import { createScratch, readOut, rejection } from '../runs/scratch.ts';
import { csvwBreaches } from './csvw-rules.ts';

// Sources: W3C Recommendations "Model for Tabular Data and Metadata on the Web" (below: Model) and
// "Metadata Vocabulary for Tabular Data" (below: Vocabulary), both of 17 December 2015; rules
// and section numbers are from memory.

const scratch = createScratch();
const LAYOUTS = [Layout.SINGLE, Layout.PAIR, Layout.TWO_PAIRS, Layout.TRACKED];
const FULL: RunMetadata = {
  vehicle: 'hatch',
  setups: ['hall', 'carpet'],
  setupHash: 'abc',
  constants: { vehicle: [1, 2], setups: [[3]], crc: 4 },
  coreVersion: '0.1.0',
  surface: 'hall floor',
  seed: 'seed',
  origin: 'scripted',
  startsAtPowerUp: true,
  notes: ['a note'],
  rows: 12,
};
const names = (layout: Layout) => runColumns(layout).map(({ name }) => name);
const described = (columns: readonly string[], metadata: RunMetadata = FULL) =>
  JSON.parse(formatRunMetadata('garage/runs/run.csv', columns, metadata));

interface Column {
  name?: string;
  titles: string;
  datatype: string;
  null?: string[];
  required?: boolean;
}

describe('Vocabulary, section 5: what we write keeps every rule', () => {
  test.each(LAYOUTS)('all that can be told, layout %i', (layout) => {
    expect(csvwBreaches(described(names(layout), { ...FULL, layout }))).toEqual([]);
    expect(csvwBreaches(described(names(layout), {}))).toEqual([]);
  });

  test('columns of any header', () => {
    fc.assert(
      fc.property(randomRun({ maxRows: 0, text: runText }), (run) => {
        const document = described(run.names);
        expect(csvwBreaches(document)).toEqual([]);
        expect(document.tableSchema.columns.map(({ titles }: Column) => titles)).toEqual(run.names);
      }),
      { numRuns: 100, seed: 2015 },
    );
  });

  // A check that cannot fail proves nothing: each rule is broken once.
  test.each<[string, (document: Record<string, unknown>) => unknown]>([
    ['5.2: @context', (d) => ({ ...d, '@context': 'http://www.w3.org/ns/csvw#' })],
    [
      '5.2: @context',
      (d) => ({ ...d, '@context': [d['@context'], { axw: 'https://x.example/' }] }),
    ],
    ['5.4: a table must have a url', (d) => ({ ...d, url: undefined })],
    ['5.4: no such property "rows"', (d) => ({ ...d, rows: 3 })],
    ['5.4: no such property "axw:rows"', (d) => ({ ...d, 'axw:rows': 3 })],
    ['5.8: list in a list, dc:x', (d) => ({ ...d, 'dc:x': [[1]] })],
    ['5.8: "slot", dc:x', (d) => ({ ...d, 'dc:x': { slot: 1 } })],
    ['5.8: @list, dc:x', (d) => ({ ...d, 'dc:x': { '@list': [1] } })],
    ['5.4: notes is a list of objects', (d) => ({ ...d, notes: ['a note'] })],
    ['5.9: header', (d) => ({ ...d, dialect: { header: 'yes' } })],
    ['5.9: no such property "separator"', (d) => ({ ...d, dialect: { separator: ';' } })],
    ['5.6: name "_x"', (d) => withColumn(d, { name: '_x' })],
    ['5.6: name "a b"', (d) => withColumn(d, { name: 'a b' })],
    ['5.6: two columns of one name', (d) => withColumn(d, { name: 'time_ms' })],
    ['5.11.1: datatype', (d) => withColumn(d, { datatype: 'int32' })],
    ['5.7: null', (d) => withColumn(d, { null: -32768 })],
    ['5.7: required', (d) => withColumn(d, { required: 'yes' })],
    ['5.6: no such property "unit"', (d) => withColumn(d, { unit: 'ms' })],
  ])('the rules notice a breach of %s', (breach, spoil) => {
    expect(csvwBreaches(spoil(described(names(Layout.PAIR))))).toEqual([breach]);
  });

  function withColumn(document: Record<string, unknown>, column: object): unknown {
    const { columns } = document.tableSchema as { columns: unknown[] };
    return { ...document, tableSchema: { columns: [...columns, column] } };
  }
});

describe('Model, section 5: where a description is found', () => {
  test('5.3: the first default location is {+url}-metadata.json', () => {
    // RFC 6570, section 3.2.3: reserved expansion leaves the characters of a path as they are.
    expect(metadataPath('garage/runs/run.csv')).toBe('garage/runs/run.csv-metadata.json');
  });

  test('Vocabulary 5.4: url is relative to the description, and names the table', () => {
    const base = 'file:///garage/runs/run.csv-metadata.json';
    const { url } = described(names(Layout.PAIR));
    expect(new URL(url, base).href).toBe('file:///garage/runs/run.csv');
  });

  test('Model 5: a description that does not name the table is not used', async () => {
    const path = scratch.put('a.csv', 'time_ms,throttle_us,steer_us\n0,1,1\n');
    scratch.put('a.csv-metadata.json', formatRunMetadata('b.csv', ['time_ms'], { rows: 9 }));
    expect((await rejection(readRunMetadata(path))).message).toContain('names "b.csv"');
    const out = await readOut(path);
    expect(out.rows).toHaveLength(1);
    expect(out.issues.map(({ kind }) => kind)).toEqual(['metadata']);
  });

  test('Vocabulary 5.2: @base moves the place the url is relative to', async () => {
    const path = scratch.put('c.csv', 'time_ms,throttle_us,steer_us\n0,1,1\n');
    const context = ['http://www.w3.org/ns/csvw', { '@base': '../' }];
    const folder = scratch.folder.split('/').at(-1);
    const document = { '@context': context, url: `${folder}/c.csv` };
    scratch.put('c.csv-metadata.json', JSON.stringify(document));
    expect(await readRunMetadata(path)).toEqual({});
  });
});

describe('Model, section 6: the table, read by its description', () => {
  test('header, nulls and datatypes of a written run agree with what is told of it', async () => {
    const path = scratch.path('model.csv');
    await fc.assert(
      fc.asyncProperty(randomRun({ maxRows: 6, text: null }), async (run) => {
        await writeRun(path, run.names, [toChunk(run)], { overwrite: true });
        const document = JSON.parse(readFileSync(metadataPath(path), 'utf8'));
        const columns: Column[] = document.tableSchema.columns;
        const [breakBy] = document.dialect.lineTerminators;
        expect(document.dialect.encoding).toBe('utf-8');
        const lines = readFileSync(path, 'utf8').split(breakBy);
        expect(lines.pop()).toBe('');
        const [header, ...rows] = lines.map((line) => line.split(document.dialect.delimiter));
        // Vocabulary 5.5: as many columns, and the titles are those of the header.
        expect(header).toEqual(columns.map(({ titles }) => titles));
        expect(rows).toHaveLength(run.rows.length);
        for (const [row, cells] of rows.entries()) {
          for (const [at, column] of columns.entries()) {
            checkCell(cells[at]!, column, run.rows[row]!.integers[at]!);
          }
        }
      }),
      { numRuns: 60, seed: 2016 },
    );
  });

  function checkCell(cell: string, column: Column, integer: number): void {
    // 6.4: a cell is null if its text is one of `null`; the default is the empty text.
    const isNull = (column.null ?? ['']).includes(cell);
    expect(isNull).toBe(integer === -32768 && column.name !== 'time_ms');
    expect(isNull && column.required === true).toBe(false);
    if (isNull) return;
    // XML Schema Part 2, section 3.4.17 (from memory): int is 32 bits wide.
    expect(cell).toMatch(/^[+-]?[0-9]+$/);
    expect(Number(cell)).toBe(Number(cell) | 0);
  }
});
