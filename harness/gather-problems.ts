import { type Problem, UserError } from './problems.ts';

/** Runs checks of which each may fail, and tells what all of them found at once. */
export interface ProblemGatherer {
  /** @returns what `check` gives; undefined if it fails by a UserError */
  take<T>(check: () => T): T | undefined;
  /** @throws UserError with the problems of all checks, if there are any */
  tell(): void;
}

/** A gatherer without problems. */
export function createProblemGatherer(): ProblemGatherer {
  const problems: Problem[] = [];
  return {
    take(check) {
      try {
        return check();
      } catch (error) {
        if (!(error instanceof UserError)) throw error;
        problems.push(...error.problems);
        return undefined;
      }
    },
    tell() {
      if (problems.length > 0) throw new UserError(problems);
    },
  };
}
