import { TORN_END } from './frame-lines.ts';
import type { RecordBatch } from './read-records.ts';
import type { RunIssue } from './run-issue.ts';

/** Why a record is no row. */
export type RowFault = Pick<RunIssue, 'kind' | 'message' | 'field' | 'cure'>;

/**
 * Puts the records of a batch away one by one and tells those that are no rows.
 *
 * @param put stores a record as row number `row`; gives a fault when it is none
 * @returns rows stored, the line of each, and all issues of the batch in the order of lines
 */
export function gatherRows(
  batch: RecordBatch,
  put: (record: string[], row: number) => RowFault | undefined,
): { rows: number; lines: Int32Array; issues: RunIssue[] } {
  const lines = new Int32Array(batch.room);
  const issues: RunIssue[] = [];
  let rows = 0;
  let lastLine = 0;
  batch.forEach((record, line) => {
    const fault = put(record, rows);
    lastLine = line;
    if (fault === undefined) lines[rows++] = line;
    else issues.push({ ...fault, line, lost: true });
  });
  if (batch.unterminated) markLast(issues, lastLine);
  if (batch.issues.length > 0) {
    issues.push(...batch.issues);
    issues.sort((a, b) => a.line - b.line);
  }
  return { rows, lines: lines.subarray(0, rows), issues };
}

/** A last row without a line break is torn if it is bad, and else may be. */
function markLast(issues: RunIssue[], line: number): void {
  if (issues.at(-1)?.line !== line) issues.push({ ...NO_BREAK, line });
  else issues[issues.length - 1] = { ...TORN, line };
}

const NO_BREAK = {
  kind: 'no-final-break',
  message: 'The last row has no line break: legal, but a cut would look the same.',
  lost: false,
} as const;

const TORN = { kind: 'torn-end', message: TORN_END, lost: true } as const;
