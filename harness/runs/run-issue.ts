import { type Problem, UserError } from '../problems.ts';
import { IssueFold } from './issue-fold.ts';

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

/** Gathers losses for an error that tells each kind once and counts them all; memory stays flat. */
export class LossList {
  #count = 0;
  readonly #fold = new IssueFold();
  readonly #file: string;

  /** @param file name of the file, as the user gave it */
  constructor(file: string) {
    this.#file = file;
  }

  /** Number of losses so far. */
  get count(): number {
    return this.#count;
  }

  /** Takes in an issue; one that lost nothing is passed over. */
  add(issue: RunIssue): void {
    if (!issue.lost) return;
    this.#count++;
    this.#fold.add(issue);
  }

  /** The error that names them. */
  toError(): UserError {
    const told = this.#fold.told().slice(0, SHOWN);
    const problems = told.map((issue) => issueProblem(this.#file, issue));
    problems.push({
      file: this.#file,
      message: `${this.#count} in all.`,
      cure: 'Mend the file, or give --lenient: bad rows are then left out and listed.',
    });
    return new UserError(problems);
  }
}

const SHOWN = 20;
const REPAIRED = 'Repaired as asked.';
