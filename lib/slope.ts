/**
 * The pull of a slope, from how a vehicle rolls in neutral. Its motors brake it then; if it rolls
 * on all the same, a slope pulls. What draws the estimated speed on to the wheels is that pull,
 * summed as by the integral part of a PI observer. A drive against it has that much less to gain.
 * It fades while driven or at rest: the next slope is another. Pushed by hand looks the same.
 */
export interface Slope {
  /**
   * The pull that counts beside a force, mm/s^2; both in the direction of travel.
   *
   * @param way that direction, 1 forward, -1 back
   */
  beside(force: number, way: number): number;
  /** @param drawn what drew the estimate on in this tick of neutral, mm/s, in that direction */
  roll(drawn: number, way: number): void;
  /** @param stop time that forbids, ms */
  fade(stop: number): void;
}

/** Share of what is drawn that counts, per s: the observer's integral time is 200 ms. */
const SHARE = 5;
/** Time constant with which it fades, ms; the steepest, mm/s^2. */
const KEPT = 3000;
const STEEPEST = 2500;

/** On the level. */
export function createSlope(): Slope {
  /** Forward positive. */
  let pull = 0;

  function beside(force: number, way: number): number {
    const along = pull * way;
    // One that helps the drive is left out: it might be a push.
    return along < 0 || force < 0 ? along : 0;
  }

  function roll(drawn: number, way: number): void {
    let along = pull * way + drawn * SHARE;
    if (along < 0) along = 0;
    else if (along > STEEPEST) along = STEEPEST;
    pull = along * way;
  }

  function fade(stop: number): void {
    pull -= (pull * stop) / (KEPT + stop);
  }

  return { beside: beside, roll: roll, fade: fade };
}
