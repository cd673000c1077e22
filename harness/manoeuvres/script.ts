import type { Driver, Sticks } from './manoeuvre.ts';

/**
 * A driver who looks at nothing but the clock.
 *
 * @param move writes the sticks at time `t`, s; they are at rest and the link is up before it does
 */
export function createScript(move: (t: number, sticks: Sticks) => void): Driver {
  return {
    drive: ({ t }, sticks) => {
      sticks.throttle = 0;
      sticks.steer = 0;
      sticks.linkUp = true;
      move(t, sticks);
    },
  };
}

/**
 * Throttle of start after start, 0 to 1.
 *
 * @param every a start each so many seconds, let go after `power`, s
 * @param rise time in which the throttle opens, s
 */
export function startAfterStart(t: number, every: number, power: number, rise: number): number {
  const since = t % every;
  return since < power ? ramp(since, rise) : 0;
}

/** From 0 to 1 within `duration`, s. */
export function ramp(t: number, duration: number): number {
  return Math.min(Math.max(t / duration, 0), 1);
}
