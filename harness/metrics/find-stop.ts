import { firstReach, integrate } from './column.ts';
import type { Drive } from './drive.ts';

/** How the vehicle came to a stop. */
export interface Stop {
  /** From the action to standstill, s and m. */
  time: number;
  distance: number;
  /** Speed at the action, m/s. */
  speed: number;
}

/** Slower than this is a standstill, m/s. */
const STANDSTILL = 0.05;

/** @returns a sentence if the drive does not show it */
export function findStop({ trace, after, actionS }: Drive): Stop | string {
  const { t, speed } = trace;
  const begin = Math.abs(speed[after.from] ?? 0);
  if (begin <= STANDSTILL) return 'The vehicle was not moving.';
  const end = firstReach(t, after, -STANDSTILL, (i) => -Math.abs(speed[i]!));
  if (end === undefined) return 'The vehicle was still moving at the end.';
  let to = after.from;
  while (to < after.to && t[to]! <= end) to++;
  const way = integrate(t, { from: after.from, to }, (i) => Math.abs(speed[i]!));
  // Between the last sample before the standstill and the standstill itself.
  const rest = ((Math.abs(speed[to - 1]!) + STANDSTILL) / 2) * (end - t[to - 1]!);
  return { time: end - actionS, distance: way + rest, speed: begin };
}
