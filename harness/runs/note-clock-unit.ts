import { MISSING } from '../../lib/signals.ts';
import type { RunChunk } from './run-chunk.ts';
import type { RunIssue } from './run-issue.ts';

/** How a log whose time is in another unit becomes a run. */
export const TIME_CURE =
  'A log in another unit becomes a run by "axlewright import" and a mapping, harness/runs/SPEC.md.';

/** What to look out for. */
export interface ClockUnitOptions {
  /** A step forward longer than this is a gap, ms. */
  gapMs: number;
  report: (issue: RunIssue) => void;
  /** What to do about it. */
  cure: string;
  /** Units whose times are too short for ms, and too long; default s and µs. */
  slower?: string;
  faster?: string;
}

/** Fewer steps of the clock tell nothing of its unit. */
const LEAST_STEPS = 20;
/** Mean steps that no hub has, ms: shorter, longer. */
const SHORTEST = 1;
const LONGEST = 2000;

/** Passes chunks on, and at their end tells if most steps of the clock look like another unit. */
export async function* noteClockUnit(
  chunks: AsyncIterable<RunChunk>,
  { gapMs, report, cure, slower = 's', faster = 'µs' }: ClockUnitOptions,
): AsyncGenerator<RunChunk> {
  const seen = { steps: 0, still: 0, gaps: 0, elapsed: 0, line: 0 };
  let last: number | undefined;
  for await (const chunk of chunks) {
    const times = chunk.columns.get('time_ms')!;
    for (let row = 0; row < chunk.rows; row++) {
      const time = times[row]!;
      if (time === MISSING) continue;
      const step = last === undefined ? undefined : (time - last) | 0;
      last = time;
      if (step === undefined) continue;
      seen.steps++;
      if (step === 0) seen.still++;
      if (step > gapMs) seen.gaps++;
      if (seen.line === 0 && (step === 0 || step > gapMs)) seen.line = chunk.lines[row]!;
      if (step > 0) seen.elapsed += step;
    }
    yield chunk;
  }
  const { steps, still, gaps, elapsed, line } = seen;
  if (steps < LEAST_STEPS) return;
  const isSlow = 2 * still > steps && elapsed < SHORTEST * steps;
  const isFast = 2 * gaps > steps && elapsed > LONGEST * steps;
  if (!isSlow && !isFast) return;
  const what = isSlow
    ? `stands still in ${still} of ${steps} steps`
    : `jumps by more than ${gapMs} ms in ${gaps} of ${steps} steps`;
  const like = elapsed === 0 ? '' : `, as if it were in ${isSlow ? slower : faster}`;
  const message = `${what}${like}; expected ms.`;
  report({ kind: 'clock-unit', line, field: 'time_ms', message, lost: false, cure });
}
