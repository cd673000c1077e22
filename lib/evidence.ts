import { AT_REST, type BackEmf } from './back-emf.ts';
import { Layout } from './codes.ts';
import { S, V } from './constants.ts';
import { cusum } from './cusum.ts';
import type { VehicleSpeed } from './vehicle-speed.ts';

/** Sums of the evidence for each finding and motor; see lib/traction.ts. */
export interface Evidence {
  spin: number[];
  free: number[];
  jam: number[];
  /**
   * @param motors of this tick
   * @param ground of this tick
   * @param last command of each motor in the last tick, permille
   * @param steer steering command, permille of full lock
   * @param stop time that forbids, ms
   */
  run(motors: BackEmf, ground: VehicleSpeed, last: number[], steer: number, stop: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** Most that a single sample may tell, in standard deviations. */
const MOST = 4;
/** Sums rise no further than this, over their thresholds. */
const FULL = 2;
/** Noise of a current over its reading; the rest of it in shares of its greatest error. */
const NOISE = 5 / 100;
const REST = 1 / 2;
/** What a wheel may be faster without slipping: over R i / K, and over the top speed ... */
const LOADED = 4 / 10;
const ALWAYS = 1 / 100;
/** ... over the speed, in model errors; over the excess speed of the outside wheel in a bend. */
const FASTER = 2 / 10;
const BEND = 1 / 2;
/** A drive that is lost is looked for from this command on, permille. */
const DRIVEN = 300;
/** Current without load over that of the description, at most. */
const IDLE = 3 / 2;
/** Share of the least stall current from which a motor may be jammed. */
const BLOCKED = 3 / 4;
/** Share of its acceleration at which a wheel must at least start to turn. */
const START = 1 / 2;
/** Tracks slip in every bend; only straight on do they tell anything, permille. */
const STRAIGHT = 50;

/** @param vehicle constants of the vehicle */
export function createEvidence(vehicle: number[]): Evidence {
  const count = vehicle[V.EMF_UV] > 0 && vehicle[V.HAS_CURRENT] === 1 ? vehicle[V.MOTORS] : 0;
  const single = count === 1;
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const drop = vehicle[V.HAS_WHEEL_SPEED] === 1 ? 0 : vehicle[V.MOTOR_MOHM] / vehicle[V.EMF_UV];
  const error = vehicle[V.CURRENT_ERROR_MA];
  const doubt = vehicle[V.MODEL_ERROR] / 1000;
  const top = vehicle[V.TOP_SPEED_MM_S];
  const idle = vehicle[V.NO_LOAD_MA];
  const blocked = vehicle[V.STALL_MIN_MA] * BLOCKED;
  const still = (error * vehicle[V.MOTOR_MOHM] * REST) / vehicle[V.EMF_UV];
  const start =
    (vehicle[V.THRUST_MN_A] * count * START) /
    1000 /
    (vehicle[V.MASS_G] + count * vehicle[V.ROTATING_G]);
  const spin = [0, 0, 0, 0];
  const free = [0, 0, 0, 0];
  const jam = [0, 0, 0, 0];
  /** Speed that each wheel should have gained since it was last at rest, mm/s. */
  const due = [0, 0, 0, 0];
  const k = [0, 0, 0];
  const most = [0, 0, 0];
  const evidence = { spin: spin, free: free, jam: jam, run: run, load: load };

  function run(
    motors: BackEmf,
    ground: VehicleSpeed,
    last: number[],
    steer: number,
    stop: number,
  ): void {
    const lead = ground.lead < 0 ? 0 - ground.lead : ground.lead;
    const bends = tracked && (steer > STRAIGHT || steer < 0 - STRAIGHT);
    for (let m = 0; m < count; m++) {
      const d = last[m];
      if (motors.told[m] === 0) {
        spin[m] = 0;
        jam[m] = 0;
        if (motors.current[m] === 0) free[m] = 0;
        continue;
      }
      const way = d < 0 ? -1 : 1;
      const i = motors.current[m] * way;
      const u = ground.speed * way;
      const w = ground.along[m] * way;
      const load = drop * (i < 0 ? 0 - i : i);
      const noise = load * NOISE + still;
      const loose = load * LOADED * doubt + top * ALWAYS;
      const grips = loose + (doubt * FASTER + lead * BEND) * (u < 0 ? 0 - u : u);
      const driven = d !== 0 && u > 0 - top * AT_REST;
      let z = -1;
      if (driven && !bends && i > error * 2) z = (w - u - grips - ground.slack) / noise;
      spin[m] = cusum(spin[m], z > MOST ? MOST : z, k[0], most[0]);
      if (driven && !bends && d * way >= DRIVEN) {
        z = (w - (single ? u : ground.near * way) - grips) / noise;
        const unloaded = (idle * IDLE + error - i) / error;
        if (unloaded < z) z = unloaded;
        free[m] = cusum(free[m], z > MOST ? MOST : z, k[1], most[1]);
      }
      z = -1;
      if (!driven || ground.brakes === 1 || i <= idle) due[m] = 0;
      else {
        const bound = loose + noise * (MOST + 1);
        due[m] += (i - idle) * start * stop;
        if (due[m] > bound) due[m] = bound;
        if (i >= blocked) z = (due[m] - (w < 0 ? 0 - w : w)) / noise;
      }
      jam[m] = cusum(jam[m], z > MOST ? MOST : z, k[2], most[2]);
    }
  }

  function load(setup: number[]): void {
    for (let f = 0; f < 3; f++) {
      k[f] = setup[S.SPIN_K + 2 * f] / 100;
      most[f] = (setup[S.SPIN_H + 2 * f] * FULL) / 100;
    }
  }

  return evidence;
}
