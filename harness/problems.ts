/** One thing that is wrong with what the user gave, and its cure. */
export interface Problem {
  /** File the problem lies in, as the user named it. */
  file: string;
  /** Line in that file, from 1, where one is known. */
  line?: number;
  /** Field, column or option, in the user's own words, such as `split.cutCurve`. */
  field?: string;
  /** What was found and what was expected. */
  message: string;
  /** What to do about it. */
  cure?: string;
}

/** An error of the user's input: printed without a stack trace, exit code 2. */
export class UserError extends Error {
  readonly problems: readonly Problem[];

  /** @param problems at least one; all that were found, not only the first */
  constructor(problems: readonly Problem[]) {
    super(problems.map(formatProblem).join('\n'));
    this.name = 'UserError';
    this.problems = problems;
  }
}

/** `file:line: field: message. Cure.` on one line. */
export function formatProblem(problem: Problem): string {
  const place = problem.line === undefined ? problem.file : `${problem.file}:${problem.line}`;
  const field = problem.field === undefined ? '' : ` ${problem.field}:`;
  const cure = problem.cure === undefined ? '' : ` ${problem.cure}`;
  return `${place}:${field} ${problem.message}${cure}`;
}
