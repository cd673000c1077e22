import * as fc from 'fast-check';
import { type RunChunk, runHeader } from '../../harness/runs/run-chunk.ts';
import { runColumns } from '../../harness/runs/run-columns.ts';
import { Layout } from '../../lib/codes.ts';

/** A run made up for a property: every row with its integers and its texts. */
export interface RandomRun {
  names: string[];
  rows: { integers: number[]; texts: string[] }[];
}

const REQUIRED = ['time_ms', 'throttle_us', 'steer_us'];
const OPTIONAL = runColumns(Layout.TWO_PAIRS)
  .map(({ name }) => name)
  .filter((name) => !REQUIRED.includes(name));

/** Any text that a run may hold, with a liking for what CSV finds hard. */
export const runText = fc.oneof(
  fc.string({ unit: fc.constantFrom('"', ',', '\r', '\n', ' ', 'x', ';', '#'), maxLength: 8 }),
  fc.string({ unit: 'binary', maxLength: 8 }).filter((text) => !/[\0\uFFFD]/.test(text)),
  fc.constantFrom('', '\uFEFF', '__proto__', '-32768', 'é µ °'),
);

/** Any integer a run may hold. */
const runInteger = fc.oneof(fc.integer(), fc.constantFrom(-32768, 0, 2147483647, -2147483648));

interface Shape {
  /** Most rows. */
  maxRows: number;
  /** Most columns beside the required ones and those of text. */
  maxColumns?: number;
  /** Texts of the columns the core does not know; null = no such columns. */
  text: fc.Arbitrary<string> | null;
  /** true = time stamps that run on evenly, so that no clock is told. */
  evenClock?: boolean;
}

/** Arbitrary runs: any columns in any order, any integers, any texts. */
export function randomRun({
  maxRows,
  maxColumns = 99,
  text,
  evenClock,
}: Shape): fc.Arbitrary<RandomRun> {
  const extra =
    text === null
      ? fc.constant<string[]>([])
      : fc.uniqueArray(
          text.filter((name) => !OPTIONAL.includes(name) && !REQUIRED.includes(name)),
          { maxLength: 3 },
        );
  return fc
    .tuple(fc.subarray(OPTIONAL, { maxLength: Math.min(maxColumns, OPTIONAL.length) }), extra)
    .chain(([known, unknown]) => {
      const all = [...REQUIRED, ...known, ...unknown];
      return fc.shuffledSubarray(all, { minLength: all.length, maxLength: all.length });
    })
    .chain((names) => {
      const { columns, extra: texts } = runHeader(names);
      const timeAt = columns.indexOf('time_ms');
      const integers = fc.array(runInteger, {
        minLength: columns.length,
        maxLength: columns.length,
      });
      const row = fc.record({
        integers,
        texts: fc.array(text ?? fc.constant(''), {
          minLength: texts.length,
          maxLength: texts.length,
        }),
      });
      return fc.array(row, { maxLength: maxRows }).map((rows) => {
        if (!evenClock) return { names, rows };
        const even = rows.map(({ integers: values, texts: cells }, at) => ({
          integers: values.with(timeAt, at * 10),
          texts: cells,
        }));
        return { names, rows: even };
      });
    });
}

/** The run as one chunk, to be written. */
export function toChunk({ names, rows }: RandomRun): RunChunk {
  const header = runHeader(names);
  return {
    header,
    rows: rows.length,
    columns: new Map(
      header.columns.map((name, at) => [name, Int32Array.from(rows, (row) => row.integers[at]!)]),
    ),
    extra: new Map(header.extra.map((name, at) => [name, rows.map((row) => row.texts[at]!)])),
    lines: new Int32Array(rows.length),
  };
}
