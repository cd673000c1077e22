import { knownColumn } from './run-columns.ts';

/** The header of a run. */
export interface RunHeader {
  /** Every column in the order of the file. */
  names: readonly string[];
  /** Those the core knows, in that order; integers. */
  columns: readonly string[];
  /** Those it does not know, in that order; text, kept as it is. */
  extra: readonly string[];
}

/** Rows of a run that follow each other, column by column. */
export interface RunChunk {
  header: RunHeader;
  /** Number of rows. */
  rows: number;
  /** Each column of `header.columns`: `rows` integers, MISSING where there was no sample. */
  columns: ReadonlyMap<string, Int32Array>;
  /** Each column of `header.extra`: `rows` texts. */
  extra: ReadonlyMap<string, readonly string[]>;
  /** Line of the file that each row begins in, from 1. */
  lines: Int32Array;
}

/** Tells the columns the core knows from the others. */
export function runHeader(names: readonly string[]): RunHeader {
  return {
    names,
    columns: names.filter((name) => knownColumn(name) !== undefined),
    extra: names.filter((name) => knownColumn(name) === undefined),
  };
}

/** A chunk of the rows at `order`, in that order. */
export function takeRows(chunk: RunChunk, order: ArrayLike<number>): RunChunk {
  const picked = Array.from(order);
  const take = (values: Int32Array): Int32Array => Int32Array.from(picked, (row) => values[row]!);
  return {
    header: chunk.header,
    rows: picked.length,
    columns: new Map([...chunk.columns].map(([name, values]) => [name, take(values)])),
    extra: new Map(
      [...chunk.extra].map(([name, values]) => [name, picked.map((row) => values[row]!)]),
    ),
    lines: take(chunk.lines),
  };
}

/** The rows of one chunk, then those of another with the same header. */
export function joinChunks(first: RunChunk, second: RunChunk): RunChunk {
  return {
    header: first.header,
    rows: first.rows + second.rows,
    columns: new Map(
      [...first.columns].map(([name, values]) => [name, join(values, second.columns.get(name)!)]),
    ),
    extra: new Map(
      [...first.extra].map(([name, values]) => [name, [...values, ...second.extra.get(name)!]]),
    ),
    lines: join(first.lines, second.lines),
  };
}

function join(first: Int32Array, second: Int32Array): Int32Array {
  const both = new Int32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
