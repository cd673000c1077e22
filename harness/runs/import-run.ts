import { basename, resolve } from 'node:path';
import { type Problem, UserError } from '../problems.ts';
import { checkClock } from './check-clock.ts';
import { gatherRows, type RowFault } from './gather-rows.ts';
import { IssueFold } from './issue-fold.ts';
import { LossList } from './loss-list.ts';
import type { Mapping } from './mapping-schema.ts';
import { noteClockUnit } from './note-clock-unit.ts';
import { noteUnits } from './note-units.ts';
import { decimalCure, type ImportPlan, planImport } from './plan-import.ts';
import { readMapping } from './read-mapping.ts';
import { type RecordBatch, readFirstRecord, readRecords } from './read-records.ts';
import { GAP_MS, type ReadOptions } from './read-run.ts';
import type { RecordShape } from './record-shape.ts';
import { type RunChunk, runHeader } from './run-chunk.ts';
import { LAYOUT_NAMES } from './run-columns.ts';
import type { RunIssue } from './run-issue.ts';
import type { RunMetadata } from './run-metadata.ts';
import { openText, skipLines, type TextSource } from './text-source.ts';
import { writeRun } from './write-run.ts';

/** How a foreign log is imported. */
export interface ImportOptions extends ReadOptions {
  /** true = replace a run of that name; default: an existing file is an error. */
  overwrite?: boolean;
}

/** What an import did. */
export interface ImportReport {
  /** Records of the log behind its header, whole or not. */
  rowsIn: number;
  /** Rows of the run. */
  rowsOut: number;
  /** Records that are no rows of the run: each has its line among the issues. */
  losses: number;
  /** What was found, by line of the log; the first MOST_ISSUES. */
  issues: RunIssue[];
  /** Number of issues, shown or not. */
  issueCount: number;
  /** The same for people: like ones as one. */
  told: RunIssue[];
  /** Columns that seem to be in another unit. */
  notes: Problem[];
}

const UNITS = { slower: 'a longer unit than that', faster: 'a shorter unit than that' };
const TIME_CURE = 'Check "unit" or "format" of "time" in the mapping.';

/** So many issues are kept; all go to `onIssue`. */
export const MOST_ISSUES = 1000;

/**
 * Makes a run of a foreign CSV log, by a mapping file. Memory does not grow with the length of the
 * log; the run appears under its name when it is whole.
 *
 * @param log the foreign file
 * @param mappingPath mapping file, see SPEC.md
 * @param outPath the run to be written, with its metadata beside it
 * @throws UserError for a bad mapping, a log it does not fit or, in strict mode, any lost row
 */
export async function importRun(
  log: string,
  mappingPath: string,
  outPath: string,
  options: ImportOptions = {},
): Promise<ImportReport> {
  for (const file of [log, mappingPath]) {
    if (resolve(file) !== resolve(outPath)) continue;
    const message = 'would be overwritten by the run made of it; nothing was written.';
    throw new UserError([{ file, message, cure: 'Give the run another name.' }]);
  }
  const mapping = await readMapping(mappingPath);
  const source = await openText(log, mapping.encoding);
  const tally = createTally(log, options);
  try {
    const { first, plan } = await begin(log, mappingPath, mapping, source);
    const rows = readChunks(source, shapeOf(mapping, plan.width), plan, first, tally);
    const gapMs = options.gapMs ?? GAP_MS;
    const { report } = tally;
    const chunks = noteClockUnit(rows, { gapMs, report, cure: TIME_CURE, ...UNITS });
    const checked = checkClock(chunks, { repairs: options.repairs ?? [], gapMs, report });
    const notes: Problem[] = [];
    const likely = noteUnits(log, strictly(checked, tally), (problem) => notes.push(problem));
    const rowsOut = await writeRun(outPath, plan.names, someOf(likely, tally), {
      metadata: metadataOf(log, mappingPath, mapping),
      overwrite: options.overwrite === true,
    });
    const { rowsIn, issueCount, losses } = tally;
    const issues = tally.issues.sort((a, b) => a.line - b.line);
    const told = tally.fold.told();
    return { rowsIn, rowsOut, losses: losses.count, issues, issueCount, told, notes };
  } finally {
    await source.close();
  }
}

/** @throws UserError, before anything is replaced, if no row is left */
async function* someOf(chunks: AsyncIterable<RunChunk>, tally: Tally): AsyncGenerator<RunChunk> {
  let rows = 0;
  for await (const chunk of chunks) {
    rows += chunk.rows;
    yield chunk;
  }
  if (rows === 0) throw tally.losses.toError('No row could be read; nothing was written.');
}

interface Tally {
  rowsIn: number;
  issueCount: number;
  issues: RunIssue[];
  fold: IssueFold;
  losses: LossList;
  strict: boolean;
  report: (issue: RunIssue) => void;
}

function createTally(log: string, options: ImportOptions): Tally {
  const tally: Tally = {
    rowsIn: 0,
    issueCount: 0,
    issues: [],
    fold: new IssueFold(),
    losses: new LossList(log),
    strict: options.mode !== 'lenient',
    report(issue) {
      tally.issueCount++;
      tally.losses.add(issue);
      tally.fold.add(issue);
      if (tally.issues.length < MOST_ISSUES) tally.issues.push(issue);
      options.onIssue?.(issue);
    },
  };
  return tally;
}

function shapeOf(mapping: Mapping, columns: number): RecordShape {
  const { delimiter, comment } = mapping;
  return {
    delimiter,
    columns,
    multiline: true,
    breakDue: false,
    ...(comment === undefined ? {} : { comment }),
  };
}

/** Reads up to the first row, and applies the mapping to the header. */
async function begin(
  log: string,
  mappingPath: string,
  mapping: Mapping,
  source: TextSource,
): Promise<{ first?: RecordBatch; plan: ImportPlan }> {
  await skipLines(source, mapping.skipLines);
  for (;;) {
    const batch = await readFirstRecord(source, shapeOf(mapping, 0));
    const damage = batch?.issues.find((issue) => issue.lost);
    if (batch === undefined || damage !== undefined) {
      const message = damage?.message ?? `no record behind ${mapping.skipLines} skipped lines.`;
      const line = damage?.line ?? source.line;
      const cure = 'Check "encoding", "skipLines" and "delimiter" of the mapping.';
      throw new UserError([{ file: log, line, field: 'header', message, cure }]);
    }
    let record: string[] | undefined;
    let at = 0;
    batch.forEach((each, line) => {
      record = each;
      at = line;
    });
    if (record === undefined) continue;
    const plan = planImport(log, mappingPath, mapping, record);
    if (mapping.header) {
      await skipLines(source, mapping.skipAfterHeader);
      return { plan };
    }
    const [row, line] = [record, at];
    return { plan, first: { ...batch, room: 1, forEach: (take) => take(row, line) } };
  }
}

async function* readChunks(
  source: TextSource,
  shape: RecordShape,
  plan: ImportPlan,
  first: RecordBatch | undefined,
  tally: Tally,
): AsyncGenerator<RunChunk> {
  const clock = { start: plan.fromStart ? undefined : 0 };
  const chunkOf = (batch: RecordBatch): RunChunk => {
    const { chunk, issues } = convertBatch(batch, plan, clock);
    tally.rowsIn += chunk.rows + issues.filter((issue) => issue.lost).length;
    for (const issue of issues) tally.report(issue);
    return chunk;
  };
  if (first !== undefined) yield chunkOf(first);
  for await (const batch of readRecords(source, shape)) yield chunkOf(batch);
}

function convertBatch(
  batch: RecordBatch,
  plan: ImportPlan,
  clock: { start: number | undefined },
): { chunk: RunChunk; issues: RunIssue[] } {
  const header = runHeader(plan.names);
  const columns = new Map(header.columns.map((name) => [name, new Int32Array(batch.room)]));
  const extra = new Map(header.extra.map((name) => [name, [] as string[]]));
  const times = columns.get('time_ms')!;
  const put = (record: string[], row: number): RowFault | undefined => {
    const wide = record.length === plan.width + 1 && record.at(-1) === '';
    if (record.length !== plan.width && !wide) {
      const message = `found ${record.length} fields, expected ${plan.width}.`;
      return { kind: 'ragged', message };
    }
    for (const { name, at, convert } of plan.integers) {
      const value = convert(record[at]!);
      if (typeof value !== 'number') return value;
      columns.get(name)![row] = value;
    }
    const time = plan.time(record);
    const since = Math.round(time - (clock.start ?? time));
    if ((since | 0) !== since) return badTime(since, record, plan);
    clock.start ??= time;
    times[row] = since;
    for (const { name, at } of plan.texts) extra.get(name)![row] = record[at]!;
    return undefined;
  };
  const { rows, lines, issues } = gatherRows(batch, put);
  for (const [name, values] of columns) columns.set(name, values.subarray(0, rows));
  for (const values of extra.values()) values.length = rows;
  return { chunk: { header, rows, columns, extra, lines }, issues };
}

function badTime(since: number, record: readonly string[], { timeAt }: ImportPlan): RowFault {
  const field = 'time_ms';
  if (!Number.isNaN(since)) {
    const message = `${since} ms from the start do not fit 32 bits.`;
    return { kind: 'out-of-range', field, message, cure: TIME_CURE };
  }
  const text = timeAt.map((at) => record[at]!.trim()).join(' ');
  const message = `${JSON.stringify(text)} cannot be read as the mapping has it.`;
  return { kind: 'not-a-number', field, message, cure: decimalCure(text) ?? TIME_CURE };
}

/** In strict mode no run comes of a log with a lost row. */
async function* strictly(
  chunks: AsyncIterable<RunChunk>,
  { strict, losses }: Tally,
): AsyncGenerator<RunChunk> {
  for await (const chunk of chunks) yield chunk;
  if (strict && losses.count > 0) throw losses.toError();
}

function metadataOf(log: string, mappingPath: string, { run }: Mapping): RunMetadata {
  const { layout, ...plain } = run;
  const known = Object.entries(plain).filter(([, value]) => value !== undefined);
  return {
    ...Object.fromEntries(known),
    ...(layout === undefined ? {} : { layout: LAYOUT_NAMES.indexOf(layout) }),
    origin: `Imported from ${basename(log)} by ${basename(mappingPath)}.`,
  };
}
