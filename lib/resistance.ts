import { V } from './constants.ts';

/**
 * Learns the resistance of each motor in each start: while the vehicle hardly moves, V d - K v is
 * all R i, whatever K. Only samples count in which the current rose as the voltage did: once it
 * stays behind, the wheel may have broken loose. The more of the voltage the speed takes, the less
 * a sample weighs, by the biweight (1 - x^2)^2 of Beaton and Tukey (1974): speed is told worst in
 * a start.
 */
export interface Resistance {
  /** Resistance of each motor over that reckoned from the description and its heat. */
  ratio: number[];
  /** What it may still be wrong by, in shares of it. */
  unsure: number[];
  /** Motor `m` is at rest; `reckoned` is its resistance as described and at its heat, mOhm. */
  begin(m: number, reckoned: number): void;
  /**
   * @param uv voltage, uV; it, current, mA, and speed, mm/s, in the direction of the command
   */
  learn(m: number, reckoned: number, uv: number, ma: number, speed: number): void;
}

/** Least current and weight of what was known before, in errors of a sample. */
const LEAST_CURRENT = 4;
const MEMORY = 6;
/** It is learnt once samples weigh so many times more than what was known before. */
const ENOUGH = 4;
/** What it may be wrong by, in model errors: before, and once learnt. */
const UNLEARNT = 22 / 10;
const LEARNT = 4 / 10;
/** Greatest share of the voltage that speed may take meanwhile; least share of its rise in R i. */
const MOVING = 17 / 100;
const FOLLOWS = 7 / 10;
/** The same before it is learnt: it may be half as great again as reckoned. */
const FOLLOWS_FIRST = 55 / 100;
/** How much hotter than reckoned a winding may be, in shares of its resistance: some 115 K. */
const HOTTER = 45 / 100;

/** @param vehicle constants of the vehicle */
export function createResistance(vehicle: number[]): Resistance {
  const emf = vehicle[V.EMF_UV];
  const least = vehicle[V.CURRENT_ERROR_MA] * LEAST_CURRENT;
  const weight = vehicle[V.CURRENT_ERROR_MA] * vehicle[V.CURRENT_ERROR_MA] * MEMORY * MEMORY;
  const doubt = vehicle[V.MODEL_ERROR] / 1000;
  const first = doubt * UNLEARNT;
  const ratio = [1, 1, 1, 1];
  const unsure = [first, first, first, first];
  /** Greatest current of this start, and R i with it. */
  const most = [0, 0, 0, 0];
  const drop = [0, 0, 0, 0];
  /** Sums of R i times i and of i times i. */
  const above = [0, 0, 0, 0];
  const below = [0, 0, 0, 0];

  function begin(m: number, reckoned: number): void {
    most[m] = 0;
    drop[m] = 0;
    below[m] = weight;
    above[m] = weight * reckoned * ratio[m];
  }

  function learn(m: number, reckoned: number, uv: number, ma: number, speed: number): void {
    const taken = emf * speed;
    const near = taken / (uv * MOVING);
    const still = 1 - near * near;
    if (ma <= least || ma <= most[m] || still <= 0) return;
    const left = uv - taken;
    const follows = unsure[m] > doubt ? FOLLOWS_FIRST : FOLLOWS;
    if ((ma - most[m]) * reckoned * ratio[m] < (left - drop[m]) * follows) return;
    most[m] = ma;
    drop[m] = left;
    const weighs = still * still * ma;
    above[m] += weighs * left;
    below[m] += weighs * ma;
    if (below[m] > weight * ENOUGH) unsure[m] = doubt * LEARNT;
    const next = above[m] / below[m] / reckoned;
    const high = 1 + doubt + HOTTER;
    const kept = next < 1 - doubt ? 1 - doubt : next;
    ratio[m] = kept > high ? high : kept;
  }

  return { ratio: ratio, unsure: unsure, begin: begin, learn: learn };
}
