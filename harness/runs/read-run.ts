import { V } from '../../lib/constants.ts';
import { UserError } from '../problems.ts';
import { checkClock } from './check-clock.ts';
import { LossList } from './loss-list.ts';
import { noteClockUnit, TIME_CURE } from './note-clock-unit.ts';
import { readHeader } from './read-header.ts';
import { readRecords } from './read-records.ts';
import { readRunMetadata } from './read-run-metadata.ts';
import type { RecordShape } from './record-shape.ts';
import type { RunChunk, RunHeader } from './run-chunk.ts';
import type { ClockRepair, RunIssue } from './run-issue.ts';
import type { RunMetadata } from './run-metadata.ts';
import { storeRows } from './store-rows.ts';
import { openText, type TextSource } from './text-source.ts';

export type { RunChunk, RunHeader };

/** How a run is read. */
export interface ReadOptions {
  /** strict (default): a lost row is an error. lenient: it is left out and told. */
  mode?: 'strict' | 'lenient';
  /** Called with everything found; in a stretch of rows what is lost comes before odd times. */
  onIssue?: (issue: RunIssue) => void;
  /** Repairs of the clock to make; default none. */
  repairs?: readonly ClockRepair[];
  /** A longer step of the clock is told as a gap, ms; default: the run's own gap time, or 200. */
  gapMs?: number;
}

/**
 * Reads a run chunk by chunk; memory does not grow with its length. What is whole is read from
 * whatever is there: a bad row costs itself and nothing behind it.
 *
 * @param path the run; metadata are looked for beside it
 * @throws UserError when it is no run at all; in strict mode also, behind the last row, when
 * anything was lost (rows before the first loss have been handed out by then)
 */
export async function* readRun(path: string, options: ReadOptions = {}): AsyncGenerator<RunChunk> {
  const strict = options.mode !== 'lenient';
  const losses = new LossList(path);
  const report = (issue: RunIssue): void => {
    losses.add(issue);
    options.onIssue?.(issue);
  };
  const source = await openText(path, 'utf-8');
  try {
    const metadata = await metadataFor(path, strict, report);
    const gapMs = options.gapMs ?? metadata?.constants?.vehicle[V.GAP_MS] ?? GAP_MS;
    const rows = readChunks(path, source, metadata, report);
    const chunks = noteClockUnit(rows, { gapMs, report, cure: TIME_CURE });
    for await (const chunk of checkClock(chunks, {
      repairs: options.repairs ?? [],
      gapMs,
      report,
    })) {
      if (chunk.rows > 0 && !(strict && losses.count > 0)) yield chunk;
    }
  } finally {
    await source.close();
  }
  if (strict && losses.count > 0) throw losses.toError();
}

/**
 * Reads no more than the header of a run.
 *
 * @param path the run; metadata are looked for beside it
 * @throws UserError when it is no run, or its header is torn
 */
export async function readRunHeader(path: string): Promise<RunHeader> {
  const source = await openText(path, 'utf-8');
  const losses = new LossList(path);
  const report = (issue: RunIssue): void => losses.add(issue);
  try {
    const metadata = await metadataFor(path, false, report);
    const header = await readHeader(path, source, shapeFor(metadata), metadata, report);
    if (header === undefined) throw losses.toError();
    return header;
  } finally {
    await source.close();
  }
}

/** A step of the clock longer than this is told, ms, where the run does not say. */
export const GAP_MS = 200;

async function metadataFor(
  path: string,
  strict: boolean,
  report: (issue: RunIssue) => void,
): Promise<RunMetadata | undefined> {
  try {
    return await readRunMetadata(path);
  } catch (error) {
    if (strict || !(error instanceof UserError)) throw error;
    const message = `Its metadata are left aside: ${error.message}`;
    report({ kind: 'metadata', line: 1, message, lost: false });
    return undefined;
  }
}

function shapeFor(metadata: RunMetadata | undefined): RecordShape {
  return {
    delimiter: ',',
    columns: metadata?.columns?.length ?? 0,
    multiline: true,
    // A run of ours ends with a line break; of a foreign file nothing is known.
    breakDue: metadata?.rows !== undefined,
  };
}

async function* readChunks(
  path: string,
  source: TextSource,
  metadata: RunMetadata | undefined,
  report: (issue: RunIssue) => void,
): AsyncGenerator<RunChunk> {
  const shape = shapeFor(metadata);
  const header = await readHeader(path, source, shape, metadata, report);
  if (header === undefined) return;
  shape.columns = header.names.length;
  shape.multiline = header.extra.length > 0;
  let seen = 0;
  let torn: RunIssue | undefined;
  for await (const batch of readRecords(source, shape)) {
    const { chunk, issues } = storeRows(batch, header);
    for (const issue of issues) {
      if (issue.kind === 'torn-end') torn = issue;
      else report(issue);
      if (issue.lost && issue.kind !== 'torn-end') seen++;
    }
    seen += chunk.rows;
    yield chunk;
  }
  const end = endIssue(metadata?.rows, seen, torn, source.line);
  if (end !== undefined) report(end);
}

/** What the end of the file tells: one issue, however much is missing. */
function endIssue(
  rows: number | undefined,
  seen: number,
  torn: RunIssue | undefined,
  line: number,
): RunIssue | undefined {
  if (rows === undefined || rows === seen) return torn;
  const missing = rows - seen;
  if (missing > 0 && torn !== undefined) {
    return { ...torn, message: `${torn.message} ${missing} of ${rows} rows are lost.` };
  }
  const message = `The metadata tell of ${rows} rows; here are ${seen}.`;
  if (missing > 0) return { kind: 'missing-rows', line, message, lost: true };
  return torn ?? { kind: 'extra-rows', line, message, lost: false };
}
