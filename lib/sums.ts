import { Reaction } from './codes.ts';
import { cusum } from './cusum.ts';
import { Fit } from './fit.ts';

/** The evidence for a finding on each motor, summed by CUSUM; thresholds are those of a setup. */
export interface Sums {
  /** The sum of each motor. */
  now: number[];
  /** Sums rise no further: FULL times the threshold. */
  most: number;
  /** false = nobody asks for them: known where a script is for one setup alone. */
  asked: boolean;
  /** @param z residual of motor `m` over its standard deviation */
  add(m: number, z: number): void;
  /**
   * @param reaction Reaction.OFF = what is summed counts for nothing
   * @param k reference value, hundredths
   * @param h threshold, hundredths
   */
  load(reaction: number, k: number, h: number): void;
}

/** Sums rise no further than this, over their thresholds. */
export const FULL = 2;

export function createSums(): Sums {
  const now = [0, 0, 0, 0];
  let reference = 0;
  const sums = { now: now, most: 0, asked: true, add: add, load: load };

  function add(m: number, z: number): void {
    now[m] = cusum(now[m], z, reference, sums.most);
  }

  function load(reaction: number, k: number, h: number): void {
    reference = k / 100;
    sums.most = (h * FULL) / 100;
    sums.asked = !!Fit.SETUPS_CHANGE || reaction !== Reaction.OFF;
  }

  return sums;
}
