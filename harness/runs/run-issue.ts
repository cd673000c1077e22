import type { Problem } from '../problems.ts';

/** What a look at a run can find wrong. */
export type IssueKind =
  | 'ragged'
  | 'not-a-number'
  | 'out-of-range'
  | 'header'
  | 'malformed'
  | 'not-text'
  | 'too-long'
  | 'torn-end'
  | 'missing-rows'
  | 'extra-rows'
  | 'blank-line'
  | 'no-final-break'
  | 'metadata'
  | 'clock-missing'
  | 'clock-duplicate'
  | 'clock-late'
  | 'clock-restart'
  | 'clock-gap'
  | 'clock-unit';

/** A repair of time stamps; none is made unless it is asked for by name. */
export type ClockRepair = 'drop' | 'sort' | 'rebase' | 'close';

/** One thing found in a run: a loss, or something odd that was left as it is. */
export interface RunIssue {
  kind: IssueKind;
  /** Line in the file, from 1; of the first one where a row spans several. */
  line: number;
  /** Column it lies in, where it is one column. */
  field?: string;
  /** What was found and what was expected. */
  message: string;
  /** true = a row or a part of the file is lost; false = everything was kept. */
  lost: boolean;
  /** The repair that would cure it, and whether it was made. */
  repair?: { name: ClockRepair; done: boolean };
  /** What to do about it, where no repair would. */
  cure?: string;
}

/** `file:line: field: message` with what to do about it. */
export function issueProblem(file: string, issue: RunIssue): Problem {
  const { repair } = issue;
  const cure =
    repair === undefined ? issue.cure : repair.done ? REPAIRED : `Repair: ${repair.name}.`;
  return {
    file,
    line: issue.line,
    message: issue.message,
    ...(issue.field === undefined ? {} : { field: issue.field }),
    ...(cure === undefined ? {} : { cure }),
  };
}

const REPAIRED = 'Repaired as asked.';
