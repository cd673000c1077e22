import { MISSING } from '../../lib/signals.ts';
import { gatherRows, type RowFault } from './gather-rows.ts';
import { TIME_CURE } from './note-clock-unit.ts';
import { parseInteger } from './parse-integer.ts';
import { readIntegers } from './read-integers.ts';
import type { EvenText, RecordBatch } from './read-records.ts';
import type { RunChunk, RunHeader } from './run-chunk.ts';
import type { RunIssue } from './run-issue.ts';

/**
 * Turns the records of a run into rows of integers.
 *
 * @returns the rows that are whole, and everything wrong with the batch in the order of lines
 */
export function storeRows(
  batch: RecordBatch,
  header: RunHeader,
): { chunk: RunChunk; issues: RunIssue[] } {
  const store = createStore(header, batch.room);
  if (batch.even !== undefined && store.putAll(batch.even)) {
    const { lines, line } = batch.even;
    const numbers = Int32Array.from({ length: lines }, (_, row) => line + row);
    return { chunk: store.chunk(lines, numbers), issues: [] };
  }
  const { rows, lines, issues } = gatherRows(batch, store.put);
  return { chunk: store.chunk(rows, lines), issues };
}

function createStore(header: RunHeader, room: number) {
  const { names } = header;
  const integers = new Map(header.columns.map((name) => [name, new Int32Array(room)]));
  const texts = new Map(header.extra.map((name) => [name, [] as string[]]));
  // One look-up a column instead of one a cell.
  const integerAt = names.map((name) => integers.get(name));
  const textAt = names.map((name) => texts.get(name));
  const timeAt = names.indexOf('time_ms');

  function put(record: string[], row: number): RowFault | undefined {
    if (record.length !== names.length) return ragged(record.length, names.length);
    for (let at = 0; at < record.length; at++) {
      const target = integerAt[at];
      const cell = record[at]!;
      if (target === undefined) {
        textAt[at]![row] = cell;
        continue;
      }
      let value = parseInteger(cell);
      if (cell === '' && at !== timeAt) value = MISSING;
      // Fails for NaN as well as for a number beyond 32 bits.
      if ((value | 0) !== value) return badCell(names[at]!, cell, value);
      target[row] = value;
    }
    return undefined;
  }

  function putAll(even: EvenText): boolean {
    return header.extra.length === 0 && readIntegers(even, [...integers.values()], timeAt);
  }

  function chunk(rows: number, lines: Int32Array): RunChunk {
    for (const [name, values] of integers) integers.set(name, values.subarray(0, rows));
    for (const values of texts.values()) values.length = rows;
    return { header, rows, columns: integers, extra: texts, lines };
  }

  return { put, putAll, chunk };
}

function ragged(found: number, expected: number): RowFault {
  return { kind: 'ragged', message: `found ${found} fields, expected ${expected}.` };
}

function badCell(field: string, cell: string, value: number): RowFault {
  const shown = JSON.stringify(cell.length > 40 ? `${cell.slice(0, 40)}...` : cell);
  if (!Number.isNaN(value) || /^-?\d+$/.test(cell)) {
    const message = `${shown} does not fit 32 bits.`;
    if (field === 'time_ms') return { kind: 'out-of-range', field, message, cure: TIME_CURE };
    return { kind: 'out-of-range', field, message };
  }
  if (field === 'time_ms' && /^-?\d*[.,]\d+$/.test(cell)) {
    const message = `found ${shown}, expected whole ms.`;
    return { kind: 'not-a-number', field, message, cure: TIME_CURE };
  }
  return { kind: 'not-a-number', field, message: `found ${shown}, expected an integer.` };
}
