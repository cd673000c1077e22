import { MISSING } from '../../lib/signals.ts';
import { type RunChunk, takeRows } from './run-chunk.ts';
import type { ClockRepair, IssueKind, RunIssue } from './run-issue.ts';
import { LATE_MS, sortRows } from './sort-rows.ts';

/** What is asked of a clock check. */
export interface ClockOptions {
  /** Repairs to make; without any, rows pass as they are. */
  repairs: readonly ClockRepair[];
  /** A step forward longer than this is a gap, ms. */
  gapMs: number;
  report: (issue: RunIssue) => void;
}

/**
 * Tells every odd step of a run's clock, and repairs those it is asked to:
 * `sort` moves late rows to where they belong; `drop` leaves out rows whose time is missing,
 * repeated or late; `rebase` goes on counting where the clock started anew; `close` takes gaps out,
 * and with them the loss of signal that the core sees in them.
 *
 * Differences are taken in 32 bits, so a wrap of the clock is no odd step.
 */
export async function* checkClock(
  chunks: AsyncIterable<RunChunk>,
  options: ClockOptions,
): AsyncGenerator<RunChunk> {
  const watch = createWatch(options);
  const ordered = options.repairs.includes('sort') ? sortRows(chunks, options.report) : chunks;
  for await (const chunk of ordered) yield watch(chunk);
}

/** Usual step until one was seen: the nominal tick. */
const NOMINAL_MS = 10;

/** A step as the file has it, and what to do about it. */
interface OddStep {
  kind: IssueKind;
  message: string;
  offered: ClockRepair;
  /** Repairs that would do away with it. */
  cures: readonly ClockRepair[];
}

function createWatch({ repairs, gapMs, report }: ClockOptions): (chunk: RunChunk) => RunChunk {
  let last: number | undefined;
  let usual = NOMINAL_MS;
  let shift = 0;

  function inspect(time: number, line: number): boolean {
    const step = last === undefined ? 1 : (time - last) | 0;
    const odd = oddStep(time, step, gapMs);
    const repair = odd?.cures.find((cure) => repairs.includes(cure));
    if (odd !== undefined) report(issueOf(odd, line, repair));
    if (repair === 'drop') return false;
    if (repair !== undefined) shift += usual - step;
    else if (odd === undefined && last !== undefined) usual = step;
    if (time !== MISSING) last = time;
    return true;
  }

  return (chunk) => {
    const times = chunk.columns.get('time_ms')!;
    const shifted = new Int32Array(chunk.rows);
    const kept: number[] = [];
    for (let row = 0; row < chunk.rows; row++) {
      const time = times[row]!;
      if (!inspect(time, chunk.lines[row]!)) continue;
      shifted[kept.length] = time === MISSING ? MISSING : time + shift;
      kept.push(row);
    }
    const rest = kept.length === chunk.rows ? chunk : takeRows(chunk, kept);
    const time = shifted.subarray(0, kept.length);
    return { ...rest, columns: new Map(rest.columns).set('time_ms', time) };
  };
}

function oddStep(time: number, step: number, gapMs: number): OddStep | undefined {
  if (time === MISSING) {
    const message = `time stamp ${MISSING}, which means none.`;
    return { kind: 'clock-missing', message, offered: 'drop', cures: ['drop'] };
  }
  if (step > 0 && step <= gapMs) return undefined;
  if (step > 0) {
    const message = `time jumps by ${step} ms to ${time}; a gap begins at ${gapMs} ms.`;
    return { kind: 'clock-gap', message, offered: 'close', cures: ['close'] };
  }
  if (step === 0) {
    const message = `time stands still at ${time}.`;
    return { kind: 'clock-duplicate', message, offered: 'drop', cures: ['drop'] };
  }
  const message = `time runs back by ${-step} ms to ${time}.`;
  return step >= -LATE_MS
    ? { kind: 'clock-late', message, offered: 'sort', cures: ['drop'] }
    : { kind: 'clock-restart', message, offered: 'rebase', cures: ['rebase'] };
}

function issueOf(odd: OddStep, line: number, repair: ClockRepair | undefined): RunIssue {
  const { kind, message, offered } = odd;
  const done = repair !== undefined;
  return {
    kind,
    line,
    field: 'time_ms',
    message,
    lost: false,
    repair: { name: repair ?? offered, done },
  };
}
