import fc from 'fast-check';

/** How to try a property on arbitrary drives. */
export interface DriveCheck {
  /** What is proved, for the message. */
  title: string;
  /** What `vitest run` needs to find the test again. */
  where: string;
  /** Seed of the drives; AXW_SEED overrules it. */
  seed: number;
  /** Number of drives; AXW_RUNS overrules it. */
  runs: number;
}

/** Whether one counterexample is replayed, and not the property tried. */
export const REPLAYS = process.env.AXW_PATH !== undefined;

/** Tries a property; on failure it throws an error with the one command that replays it. */
export function checkDrives<T>(property: fc.IProperty<T>, check: DriveCheck): void {
  const { AXW_SEED, AXW_PATH, AXW_RUNS } = process.env;
  const result = fc.check(property, {
    seed: Number(AXW_SEED ?? check.seed),
    numRuns: Number(AXW_RUNS ?? check.runs),
    ...(AXW_PATH !== undefined && { path: AXW_PATH, endOnFailure: true }),
  });
  if (!result.failed) return;
  const reason = result.errorInstance instanceof Error ? result.errorInstance.message : 'no reason';
  throw new Error(
    `${check.title}: ${reason}\nThis command replays it:\n` +
      `AXW_SEED=${result.seed} AXW_PATH=${result.counterexamplePath} ` +
      `npx vitest run ${check.where}\n` +
      `Smallest drive found: ${fc.stringify(result.counterexample)}`,
  );
}
