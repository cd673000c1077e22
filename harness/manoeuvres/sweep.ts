/** Share of the grip at the end of a slow rise of lateral acceleration. */
export const LIMIT = 0.95;
/** Speed at its beginning over that at its end. */
export const SLOW = 0.3;
/** How long it takes, s: some hundred times the car's response. */
export const SWEEP_S = 12;
/** How far a driver looks ahead on a circle, in wheelbases. */
export const AHEAD = 4;

/** Speed at which lateral acceleration in one bend rises evenly, `t` s after the rise began. */
export function risingSpeed(fastest: number, t: number): number {
  const share = Math.min(Math.max(t / SWEEP_S, 0), 1);
  return fastest * Math.sqrt(SLOW * SLOW + (1 - SLOW * SLOW) * share);
}
