import { Layout } from './codes.ts';
import { S, TABLE_POINTS, V } from './constants.ts';
import { Fit } from './fit.ts';
import { greatest } from './greatest.ts';

/**
 * Shares the demand among the motors.
 *
 * Steered layouts slow the inside motor by the cut c(|s|), a table baked from
 * geometryShare g + cutAtFullLock |s|^curve, g = 1 - (R - t/2) / (R + t/2), R = L / tan(angle).
 * The front pair follows in proportion to its path radii, with the inside one never the faster.
 * Where a motor would pass its cap, all are lowered together, so that their ratio stays. Reverse
 * is exact: the ratio does not depend on the sign of the demand. A cut that yaw assist takes below
 * zero slows the outside motor by as much instead, and the inside one keeps the demand.
 *
 * TRACKED: the stick's side is the side the vehicle yaws to in either direction of travel; the
 * track on the side of the turn's centre is the slower one. A pivot share, greatest without
 * throttle, turns the tracks against each other.
 */
export interface Split {
  /** Command of each motor, permille, not rounded. */
  goal: number[];
  /**
   * Cut in force, permille, up to the setup's ceiling; below 0 the outside is slowed; not rounded.
   */
  cut: number;
  /**
   * @param demand drive demand, permille
   * @param steer steering command, permille of full lock, left positive
   * @param cap greatest magnitude of any motor, permille
   * @param assist change of the cut by yaw assist, permille, 0 or less
   */
  run(demand: number, steer: number, cap: number, assist: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** @param vehicle constants of the vehicle */
export function createSplit(vehicle: number[]): Split {
  const layout = vehicle[V.LAYOUT];
  let table: number[] = [];
  let ceiling = 0;
  let meanShare = 0;
  const goal = [0, 0, 0, 0];
  const split = { goal: goal, cut: 0, run: run, load: load };

  function run(demand: number, steer: number, cap: number, assist: number): void {
    if (layout === Layout.SINGLE) {
      goal[0] = demand > cap ? cap : demand < 0 - cap ? 0 - cap : demand;
      return;
    }
    const x = ((steer < 0 ? 0 - steer : steer) * (TABLE_POINTS - 1)) / 1000;
    let i = x | 0;
    if (i > TABLE_POINTS - 2) i = TABLE_POINTS - 2;
    const points = table;
    const motors = goal;
    const first = points[S.CUT_TABLE + i];
    let cut = (first + (points[S.CUT_TABLE + 1 + i] - first) * (x - i)) / 10;
    if (cut > ceiling) cut = ceiling;
    cut += assist;
    split.cut = cut;
    // The mean of both sides keeps the share MEAN_SHARE of the demand, the outside the rest.
    let outside = meanShare > 0 && cut > 0 ? demand / (1 - cut * meanShare) : demand;
    if (layout === Layout.PAIR) {
      if (outside > cap) outside = cap;
      else if (outside < 0 - cap) outside = 0 - cap;
    }
    // In this form the sides are equal to the last bit where there is no cut.
    let inside = outside;
    if (cut > 0) inside -= (outside * cut) / 1000;
    else if (Fit.BYTES_COUNT || cut < 0) outside += (inside * cut) / 1000;
    const leftInside = layout === Layout.TRACKED ? steer > 0 === demand >= 0 : steer > 0;
    motors[0] = leftInside ? inside : outside;
    motors[1] = leftInside ? outside : inside;
    if (layout === Layout.TRACKED) {
      pivot(goal, points, demand, steer);
      lower(goal, 2, cap);
    } else if (layout === Layout.TWO_PAIRS) {
      front(goal, vehicle, i, x - i, steer > 0, points[S.FRONT_SHARE]);
      lower(goal, 4, cap);
    }
  }

  function load(setup: number[]): void {
    table = setup;
    ceiling = setup[S.CUT_CEILING];
    meanShare = setup[S.MEAN_SHARE] / 2000000;
  }

  return split;
}

function front(
  goal: number[],
  vehicle: number[],
  i: number,
  fraction: number,
  left: boolean,
  share: number,
): void {
  const inside = (between(vehicle, V.FRONT_INSIDE + i, fraction) * share) / 1000;
  const outside = (between(vehicle, V.FRONT_OUTSIDE + i, fraction) * share) / 1000;
  const inner = (goal[left ? 0 : 1] * inside) / 10000;
  const outer = (goal[left ? 1 : 0] * outside) / 10000;
  // With a cut less deep than the geometry's the radii alone would make the inside one faster.
  const lead = outer < 0 ? inner < outer : inner > outer;
  goal[left ? 2 : 3] = lead ? outer : inner;
  goal[left ? 3 : 2] = outer;
}

function pivot(goal: number[], setup: number[], demand: number, steer: number): void {
  const a = demand < 0 ? 0 - demand : demand;
  const fade = setup[S.PIVOT_FADE];
  if (a >= fade) return;
  const share = (((setup[S.PIVOT] * steer) / 1000) * (fade - a)) / fade;
  goal[0] -= share;
  goal[1] += share;
}

/** Lowers all motors in the same ratio until none passes the cap. */
function lower(goal: number[], count: number, cap: number): void {
  const most = greatest(goal, count);
  if (most <= cap) return;
  for (let i = 0; i < count; i++) goal[i] = (goal[i] * cap) / most;
}

/** Linear interpolation between two points of a table. */
function between(table: number[], index: number, fraction: number): number {
  return table[index] + (table[index + 1] - table[index]) * fraction;
}
