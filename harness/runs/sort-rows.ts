import { MISSING } from '../../lib/signals.ts';
import { joinChunks, type RunChunk, takeRows } from './run-chunk.ts';
import type { RunIssue } from './run-issue.ts';

/** A step back of at most this is a row that came late; of more, a clock that started anew, ms. */
export const LATE_MS = 1000;

/** Rows held back so that late ones can still find their place. */
const WINDOW = 1024;

/**
 * Moves rows that came up to LATE_MS late to where their time belongs; rows of equal time keep
 * their order. No row moves across a clock that started anew.
 *
 * @param report told of every row that was moved
 */
export async function* sortRows(
  chunks: AsyncIterable<RunChunk>,
  report: (issue: RunIssue) => void,
): AsyncGenerator<RunChunk> {
  const clock = createUnwrapper(report);
  let held: RunChunk | undefined;
  let keys: number[] = [];
  for await (const chunk of chunks) {
    const times = chunk.columns.get('time_ms')!;
    for (let row = 0; row < chunk.rows; row++) keys.push(clock(times[row]!, chunk.lines[row]!));
    const all = held === undefined ? chunk : joinChunks(held, chunk);
    const order = keys.map((_, row) => row).sort((a, b) => keys[a]! - keys[b]!);
    const free = Math.max(0, all.rows - WINDOW);
    if (free > 0) yield takeRows(all, order.slice(0, free));
    held = takeRows(all, order.slice(free));
    keys = order.slice(free).map((row) => keys[row]!);
  }
  if (held !== undefined) yield held;
}

/**
 * Makes a sort key of each time stamp: 32-bit time without its wraps, a new age at each restart.
 */
function createUnwrapper(report: (issue: RunIssue) => void) {
  let last: number | undefined;
  let key = 0;
  let newest = 0;
  return (time: number, line: number): number => {
    if (time === MISSING) return key;
    const step = last === undefined ? 0 : (time - last) | 0;
    last = time;
    key += step;
    if (step < -LATE_MS) key = newest + LATE_MS + 1;
    if (key < newest) {
      const message = `row came late, by ${newest - key} ms.`;
      const repair = { name: 'sort', done: true } as const;
      report({ kind: 'clock-late', line, field: 'time_ms', message, lost: false, repair });
    }
    newest = Math.max(newest, key);
    return key;
  };
}
