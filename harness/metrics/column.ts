import type { Samples } from './drive.ts';

/** Mean of those samples; NaN if there are none. */
export function mean(column: ArrayLike<number>, { from, to }: Samples): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += column[i]!;
  return sum / (to - from);
}

/** Greatest magnitude among those samples; 0 if there are none. */
export function greatest(column: ArrayLike<number>, { from, to }: Samples): number {
  let most = 0;
  for (let i = from; i < to; i++) most = Math.max(most, Math.abs(column[i]!));
  return most;
}

/**
 * Time at which a column first reaches a value from below within the samples, linear between two
 * of them; the first one's time if it is there already; undefined if it never is.
 */
export function firstReach(
  t: ArrayLike<number>,
  { from, to }: Samples,
  value: number,
  at: (i: number) => number,
): number | undefined {
  for (let i = from; i < to; i++) {
    const now = at(i);
    if (!(now >= value)) continue;
    if (i === from) return t[i]!;
    const before = at(i - 1);
    return t[i - 1]! + ((value - before) / (now - before)) * (t[i]! - t[i - 1]!);
  }
  return undefined;
}

/** A greatest value and when it occurs, s. */
export interface Peak {
  t: number;
  value: number;
}

/**
 * Greatest value among the samples, by the parabola through the greatest one and its neighbours.
 */
export function findPeak(
  t: ArrayLike<number>,
  { from, to }: Samples,
  at: (i: number) => number,
): Peak {
  let best = from;
  for (let i = from; i < to; i++) if (at(i) > at(best)) best = i;
  const value = at(best);
  if (best === from || best >= to - 1) return { t: t[best]!, value };
  const a = t[best - 1]! - t[best]!;
  const b = t[best + 1]! - t[best]!;
  const p = at(best - 1) - value;
  const q = at(best + 1) - value;
  // value + slope s + bend s² through (a, p), (0, 0), (b, q).
  const slope = (p * b * b - q * a * a) / (a * b * (b - a));
  const bend = (q * a - p * b) / (a * b * (b - a));
  if (!(bend < 0)) return { t: t[best]!, value };
  const s = Math.min(Math.max(-slope / (2 * bend), a), b);
  return { t: t[best]! + s, value: value + slope * s + bend * s * s };
}

/** Integral over time of those samples, by trapezes. */
export function integrate(
  t: ArrayLike<number>,
  { from, to }: Samples,
  at: (i: number) => number,
): number {
  let sum = 0;
  for (let i = from + 1; i < to; i++) sum += ((at(i) + at(i - 1)) / 2) * (t[i]! - t[i - 1]!);
  return sum;
}

/** How long a column is at a level or above, s; between two samples it is a straight line. */
export function timeAbove(
  t: ArrayLike<number>,
  { from, to }: Samples,
  level: number,
  at: (i: number) => number,
): number {
  let sum = 0;
  for (let i = from + 1; i < to; i++) {
    const least = Math.min(at(i - 1), at(i));
    const most = Math.max(at(i - 1), at(i));
    const share = least >= level ? 1 : most < level ? 0 : (most - level) / (most - least);
    sum += share * (t[i]! - t[i - 1]!);
  }
  return sum;
}
