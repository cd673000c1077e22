/** What two ways of computing the same number may differ by. */
export const ROUNDING = 1e-6;

/**
 * Holds a magnitude that is cut to an integer to a slope. It keeps the greatest value that the
 * number behind the integer can have, so that no excess hides in the rounding, however slow the
 * slope.
 */
export interface Slope {
  /**
   * A magnitude that may rise by `up`.
   *
   * @returns by how much it rose beyond; 0 or less = it did not
   */
  rise(magnitude: number, up: number): number;
  /**
   * A magnitude that may only be above `bound` while it falls by `down`.
   *
   * @returns by how much it is above both; 0 or less = it is not
   */
  fall(magnitude: number, bound: number, down: number): number;
}

/** A slope from 0. */
export function createSlope(): Slope {
  let highest = 0;

  function hold(magnitude: number, allowed: number): number {
    highest = magnitude > allowed ? magnitude : Math.min(magnitude + 1, allowed);
    return magnitude - allowed - ROUNDING;
  }

  return {
    rise: (magnitude, up) => hold(magnitude, highest + up),
    fall: (magnitude, bound, down) => hold(magnitude, Math.max(bound, highest - down, 0)),
  };
}

/** No bound: more than any magnitude. */
export const FREE = 1e9;
