import { findPeak, firstReach, mean } from './column.ts';
import type { Drive, Samples } from './drive.ts';

/** How something followed a step of the steering; times in s. */
export interface StepResponse {
  /** From half of the steering's change to 90 % of the steady value. */
  responseTime: number;
  /** From half of the steering's change to the greatest value; tells little without overshoot. */
  peakTime: number;
  /** Greatest value over the steady one, less 1; 0 if it is never passed. */
  overshoot: number;
  /**
   * Most by which noise alone may pass the steady value, over that: six times the standard
   * deviation in the steady part, since the greatest of some hundred samples lies at three and a
   * peak may sit on another three.
   */
  tremble: number;
  /** Steady value, in the column's unit, and steady steering angle, rad. */
  steady: number;
  angle: number;
}

/**
 * Response times of ISO 7401 (from memory): time 0 is when the steering has made half its way,
 * the steady value is the mean over the manoeuvre's steady part.
 *
 * @param column yaw rate or lateral acceleration
 * @returns a sentence if the drive does not show it
 */
export function findStepResponse(drive: Drive, column: Float64Array): StepResponse | string {
  const { trace, after, steady } = drive;
  if (steady === undefined) return 'The manoeuvre has no steady part.';
  if (steady.to - steady.from < 2) return 'The drive ended before it was steady.';
  const { t, steerAngle } = trace;
  const begin: Samples = { from: Math.max(after.from - 1, 0), to: after.to };
  const angle = mean(steerAngle, steady);
  const final = mean(column, steady);
  const half = firstReach(t, begin, 0.5, share(steerAngle, begin.from, angle));
  const response = share(column, begin.from, final);
  const reached = firstReach(t, begin, 0.9, response);
  if (angle === steerAngle[begin.from] || half === undefined) return 'The steering did not move.';
  if (reached === undefined) return 'The car did not follow the steering.';
  const peak = findPeak(t, begin, response);
  const level = meanOf(steady, (i) => response(i));
  const spread = meanOf(steady, (i) => (response(i) - level) ** 2);
  return {
    responseTime: reached - half,
    peakTime: peak.t - half,
    overshoot: Math.max(peak.value - 1, 0),
    tremble: TREMBLE * Math.sqrt(spread),
    steady: final,
    angle,
  };
}

const TREMBLE = 6;

/** Mean of something over some samples. */
function meanOf({ from, to }: Samples, at: (i: number) => number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += at(i);
  return sum / (to - from);
}

/** Share of the way from its first value to its last that a column has gone. */
function share(column: Float64Array, from: number, final: number): (i: number) => number {
  const first = column[from]!;
  return (i) => (column[i]! - first) / (final - first);
}
