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

/** From 0 to 1 within `duration`, s. */
export function ramp(t: number, duration: number): number {
  return Math.min(Math.max(t / duration, 0), 1);
}
