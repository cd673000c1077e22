import type { ReplayResult } from './replay.ts';
import type { Verification } from './verification.ts';

/**
 * The outcome of a replay in one or two sentences.
 *
 * @param losses rows or parts of the file that were left out or repaired
 */
export function verdictText(result: ReplayResult, losses: number): string {
  const broken = result.limits.filter((limit) => limit.held === false);
  const tested = result.limits.filter((limit) => limit.held !== null).length;
  const limits =
    broken.length === 0
      ? `All ${tested} safety limits that this run put to the test held.`
      : `Broken: ${broken.map((limit) => `${limit.id} (${limit.title})`).join(', ')}.`;
  const idle = result.figures.drivingS > 0 ? '' : ' Nothing was driven, so that says little.';
  const { verification } = result;
  if (verification === undefined) return limits + idle;
  const { identical, ticks, columns, missing } = verification;
  if (columns.length === 0) return `${limits}${idle} The run holds no outputs to verify.`;
  if (identical) {
    const lacks =
      missing.length === 0 ? '' : `, as far as the run tells; it lacks ${missing.join(', ')}`;
    return `${limits} The laptop recomputed all ${ticks} ticks bit for bit${lacks}.`;
  }
  return (
    `The laptop does not recompute what was recorded${whyNot(verification, losses)}. ` +
    `Of what it computed, not of what the hub did: ${limits}`
  );
}

function whyNot({ first }: Verification, losses: number): string {
  if (losses > 0) {
    return (
      `: of the file ${losses} ${losses === 1 ? 'part was' : 'parts were'} left out or repaired, ` +
      'and from there on the core saw something else than the hub did'
    );
  }
  if (first?.offer === undefined)
    return ' (another build, other setups or another order of them would explain it)';
  const what =
    first.offer === 'taken'
      ? 'the hub took a setup that it was offered, and drove on with other constants'
      : 'the hub refused a setup that it was offered';
  return (
    ` from tick ${first.tick} on: there ${what}. No recording holds what is offered; ` +
    'all ticks before it are the same bit for bit'
  );
}
