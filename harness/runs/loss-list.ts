import { UserError } from '../problems.ts';
import { IssueFold } from './issue-fold.ts';
import { issueProblem, type RunIssue } from './run-issue.ts';

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

  /**
   * The error that names them.
   *
   * @param outcome what came of them all the same; left out = nothing yet, and how to go on
   */
  toError(outcome = ''): UserError {
    const told = this.#fold.told().slice(0, SHOWN);
    const problems = told.map((issue) => issueProblem(this.#file, issue));
    problems.push({
      file: this.#file,
      message: `${this.#count} in all.`,
      cure: outcome || 'Mend the file, or give --lenient: bad rows are then left out and listed.',
    });
    return new UserError(problems);
  }
}

const SHOWN = 20;
