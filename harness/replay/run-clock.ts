import { MISSING } from '../../lib/index.ts';

/** Run time from a run's time stamps: it only runs forward, whatever the stamps do. */
export interface RunClock {
  /** Run time since the first tick, ms. */
  atMs: number;
  /** Takes the next stamp, 32-bit ms or MISSING; returns the step forward, ms, 0 or more. */
  step(timeMs: number): number;
}

/** A clock at 0. */
export function createRunClock(): RunClock {
  let last: number | undefined;
  const clock = { atMs: 0, step };

  function step(timeMs: number): number {
    if (timeMs === MISSING) return 0;
    // The difference of two 32-bit counts stays right across their wrap.
    const elapsed = last === undefined ? 0 : (timeMs - last) | 0;
    last = timeMs;
    const forward = Math.max(0, elapsed);
    clock.atMs += forward;
    return forward;
  }

  return clock;
}
