/** What the exit codes of `axlewright` mean. */
export const ExitCode = {
  /** All went well. */
  OK: 0,
  /** A safety limit was broken, or a run did not verify. */
  BREACH: 1,
  /** The input was wrong. */
  BAD_INPUT: 2,
  /** axlewright itself failed. */
  INTERNAL: 3,
} as const;

/** Takes the exit code of a command that ran to its end. */
export type SetExitCode = (code: number) => void;
