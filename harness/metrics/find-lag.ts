import { findPeak } from './column.ts';
import type { Drive } from './drive.ts';

/** How the yaw rate followed the first half wave of a sine of the steering. */
export interface Lag {
  /** From the steering's crest to that of the yaw rate, s. */
  time: number;
  /** Crest of the yaw rate over that of the steering, 1/s. */
  gain: number;
}

/** Steering that stays below this does not move, rad. */
const STILL = 1e-6;

/** @returns a sentence if the drive does not show it */
export function findLag({ trace, after }: Drive): Lag | string {
  const { t, steerAngle, yawRate } = trace;
  const first = firstBeyond(steerAngle, after.from, after.to);
  if (first === undefined) return 'The steering did not move.';
  const side = Math.sign(steerAngle[first]!);
  const steer = findPeak(t, after, (i) => side * steerAngle[i]!);
  const yaw = findPeak(t, after, (i) => side * yawRate[i]!);
  if (!(yaw.value > 0)) return 'The car did not follow the steering.';
  return { time: yaw.t - steer.t, gain: yaw.value / steer.value };
}

function firstBeyond(column: Float64Array, from: number, to: number): number | undefined {
  for (let i = from; i < to; i++) if (Math.abs(column[i]!) > STILL) return i;
  return undefined;
}
