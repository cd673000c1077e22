/** Share of the grip at the end of a slow rise of lateral acceleration. */
export const LIMIT = 0.95;
/** Speed at its beginning over that at its end. */
export const SLOW = 0.3;
/** How long it takes, s: some hundred times the car's response. */
export const SWEEP_S = 12;
/** How far a driver looks ahead on a circle, in wheelbases, and how eagerly it is learnt. */
export const AHEAD = 4;
export const LEARNING = 0.15;

/** Speed that rises evenly, so that what it takes to speed up the turning stays the same. */
export function risingSpeed(fastest: number, t: number): number {
  const share = Math.min(Math.max(t / SWEEP_S, 0), 1);
  return fastest * (SLOW + (1 - SLOW) * share);
}
