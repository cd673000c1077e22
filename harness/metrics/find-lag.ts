import { Matrix, solve } from 'ml-matrix';
import { findPeak, type Peak } from './column.ts';
import type { Drive, Samples } from './drive.ts';

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
  const steer = findCrest(t, after, (i) => side * steerAngle[i]!);
  const yaw = findCrest(t, after, (i) => side * yawRate[i]!);
  if (!(yaw.value > 0)) return 'The car did not follow the steering.';
  return { time: yaw.t - steer.t, gain: yaw.value / steer.value };
}

/** Samples above this share of the greatest one make up a crest. */
const CREST = 0.85;

/**
 * The greatest wave's crest by the parabola that fits its upper part best: a flat crest's highest
 * sample may lie anywhere on it.
 */
function findCrest(t: Float64Array, samples: Samples, at: (i: number) => number): Peak {
  const peak = findPeak(t, samples, at);
  let from = samples.from;
  while (t[from + 1]! <= peak.t) from++;
  let to = from + 1;
  while (from > samples.from && at(from - 1) >= CREST * peak.value) from--;
  while (to < samples.to && at(to) >= CREST * peak.value) to++;
  if (to - from < 3) return peak;
  const times = Array.from({ length: to - from }, (_, i) => t[from + i]! - peak.t);
  const values = times.map((_, i) => at(from + i));
  const found = solve(new Matrix(times.map((s) => [1, s, s * s])), Matrix.columnVector(values));
  const [value, slope, bend] = [found.get(0, 0), found.get(1, 0), found.get(2, 0)];
  if (!(bend < 0)) return peak;
  return { t: peak.t - slope / (2 * bend), value: value - (slope * slope) / (4 * bend) };
}

function firstBeyond(column: Float64Array, from: number, to: number): number | undefined {
  for (let i = from; i < to; i++) if (Math.abs(column[i]!) > STILL) return i;
  return undefined;
}
