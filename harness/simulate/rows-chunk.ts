import type { Layout } from '../../lib/codes.ts';
import { inputAt, outputAt } from '../replay/row-columns.ts';
import { inputWidth, outputWidth } from '../replay/row-layout.ts';
import { type RunChunk, runHeader } from '../runs/run-chunk.ts';
import { motorNames, runColumns } from '../runs/run-columns.ts';
import type { TickRows } from './tick-rows.ts';

/** The ticks of a drive as one chunk of a run, with every column the core knows. */
export function rowsChunk(rows: TickRows, layout: Layout): RunChunk {
  const names = runColumns(layout).map((column) => column.name);
  const inWidth = inputWidth(rows.motors);
  const outWidth = outputWidth(rows.motors);
  const motors = motorNames(layout);
  const column = (name: string): Int32Array => {
    const values = new Int32Array(rows.count);
    const input = inputAt(name, motors);
    const [from, width, at] =
      input === undefined
        ? [rows.outputs, outWidth, outputAt(name, motors)]
        : [rows.inputs, inWidth, input];
    for (let row = 0; row < rows.count; row++) values[row] = from[row * width + at]!;
    return values;
  };
  return {
    header: runHeader(names),
    rows: rows.count,
    columns: new Map(names.map((name) => [name, column(name)])),
    extra: new Map(),
    // The header is the first line.
    lines: Int32Array.from({ length: rows.count }, (_, row) => row + 2),
  };
}
