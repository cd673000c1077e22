import type { ReplayResult } from './replay.ts';

/** The outcome of a replay in one or two sentences. */
export function verdictText(result: ReplayResult): string {
  const broken = result.limits.filter((limit) => limit.held === false);
  const tested = result.limits.filter((limit) => limit.held !== null).length;
  const limits =
    broken.length === 0
      ? `All ${tested} safety limits that this run put to the test held.`
      : `Broken: ${broken.map((limit) => `${limit.id} (${limit.title})`).join(', ')}.`;
  const { verification } = result;
  if (verification === undefined) return limits;
  const { identical, ticks, columns } = verification;
  if (columns.length === 0) return `${limits} The run holds no outputs to verify.`;
  return identical
    ? `${limits} The laptop recomputed all ${ticks} ticks bit for bit.`
    : `${limits} The laptop does not recompute what was recorded.`;
}
