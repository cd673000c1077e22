import type { BackEmf } from './back-emf.ts';
import { Found, Reaction } from './codes.ts';
import { S, V } from './constants.ts';
import { cusum } from './cusum.ts';
import { createStartSlip } from './start-slip.ts';
import type { Windings } from './winding.ts';

/**
 * Tells from start to start whether the front axle, driven at the mean of the rear sides, still
 * pulls. A tyre carries force by slip s = c F, more near its limit. Where the front no longer
 * pulls, the rear alone carries F: it slips twice as much under the same force, and lets go at 0.6
 * to 0.7 of the force that all wheels bear together.
 *
 * Over a straight start from rest the currents give the vehicle u = sum(T i - drag) dt / m, and the
 * voltage is V d = R i + K u (1 + c F). The errors of T, m and K are a factor of u, that of R one
 * of i; both stay from start to start, c F u has another course than either. So R and K are fitted
 * to all starts by least squares, the latest weighing most, c to each. What the wheels turned more,
 * under the mean force of the start, is compared with the slip in earlier starts. The CUSUM of all
 * starts alarms, not a single one.
 *
 * What it cannot tell from a lost front drive: a floor on which the vehicle rolls more easily or
 * slips more, a slope down after starts on the level. A setup is made for a floor, so slip is
 * learnt anew with each that comes into force; R and K, which are the vehicle's, stay. It learns
 * from two starts at least. Only starts forward are looked at.
 * The setup's words for false alarms mean noise over time, from tick to tick. Here it is model
 * errors and the floor that spread from start to start, so k and h are its own.
 */
export interface FrontWatch {
  /** Found.FRONT_FREE or 0; stays until cleared. */
  found: number;
  /** How sure it is, permille, 500 at the threshold. */
  sure: number;
  /**
   * @param motors of this tick
   * @param mv supply voltage under load, mV
   * @param speed of the vehicle, mm/s
   * @param last command of each motor in the last tick, permille
   * @param steer steering command, permille of full lock
   * @param stop time that forbids, ms
   */
  run(
    motors: BackEmf,
    mv: number,
    speed: number,
    last: number[],
    steer: number,
    stop: number,
  ): void;
  /** Lets go of the finding and its evidence; what was learnt of the vehicle stays. */
  clear(): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** What earlier starts told of R and K weighs less by this factor with each start. */
const FADES = 2;
/** Spread of the mean slip from start to start. */
const SPREAD = 4 / 100;
/** Least slip that is reckoned with near the limit: from there on it grows as the force to this. */
const FIRM = 5 / 100;
/** Starts that are learnt from at first without question; then in the mean. */
const FIRST = 2;
const MANY = 8;
/** Reference value and decision interval of the CUSUM over starts; the sum rises no further. */
const K = 1 / 2;
const H = 5 / 2;
const FULL = 5;
/** Most that a start tells: no single one alarms. */
const MOST = 5 / 2;

/**
 * @param vehicle constants of the vehicle
 * @param windings heat of each motor's winding
 */
export function createFrontWatch(vehicle: number[], windings: Windings): FrontWatch {
  const senses = vehicle[V.EMF_UV] > 0 && vehicle[V.HAS_CURRENT] === 1 && vehicle[V.MOTORS] === 2;
  // Unless the winding's heat is reckoned, R rising from start to start would look like slip.
  const tells = vehicle[V.COPPER_PPM_K] > 0 || vehicle[V.HAS_WHEEL_SPEED] === 1;
  const looks = senses && tells && vehicle[V.FRONT_AVERAGED] === 1;
  const start = createStartSlip(vehicle, windings);
  let active = false;
  /** Of earlier starts, over xx: sums of what x leaves unexplained of uu, ui, ii, vu, vi. */
  let uu = 0;
  let ui = 0;
  let ii = 0;
  let vu = 0;
  let vi = 0;
  /** Starts learnt from, and the means of v, u and i over x in them. */
  let learnt = 0;
  let meanV = 0;
  let meanU = 0;
  let meanI = 0;
  let sum = 0;
  const watch = { found: 0, sure: 0, run: run, clear: clear, load: load };

  function run(
    motors: BackEmf,
    mv: number,
    speed: number,
    last: number[],
    steer: number,
    stop: number,
  ): void {
    if (!active || !start.run(motors, mv, speed, last, steer, stop)) return;
    const self = watch;
    const s = start.sums;
    const xx = s[5];
    const u = s[2] / xx;
    const i = s[4] / xx;
    const v = s[8] / xx;
    uu = uu / FADES + s[0] / xx - u * u;
    ui = ui / FADES + s[1] / xx - u * i;
    ii = ii / FADES + s[3] / xx - i * i;
    vu = vu / FADES + s[6] / xx - v * u;
    vi = vi / FADES + s[7] / xx - v * i;
    const det = uu * ii - ui * ui;
    const emf = (vu * ii - vi * ui) / det;
    const ohm = (vi * uu - vu * ui) / det;
    let z = 0;
    if (learnt >= FIRST) {
      const before = (meanV - ohm * meanI) / (emf * meanU) - 1;
      // Mean force over that of earlier starts: u over x is 1 over the force.
      const r = meanU / u;
      z = (v - ohm * i) / (emf * u) - 1 - before * r;
      if (r > 1) z -= (before > FIRM ? before : FIRM) * r * (r * r * r - 1);
      z /= SPREAD;
    }
    if (z < 1) {
      if (learnt < MANY) learnt++;
      meanV += (v - meanV) / learnt;
      meanU += (u - meanU) / learnt;
      meanI += (i - meanI) / learnt;
    }
    sum = cusum(sum, z > MOST ? MOST : z, K, FULL);
    if (sum > H) self.found = Found.FRONT_FREE;
    const sure = (sum * 500) / H;
    self.sure = self.found !== 0 && sure < 1 ? 1 : sure;
  }

  function clear(): void {
    sum = 0;
    watch.found = 0;
    watch.sure = 0;
  }

  function load(setup: number[]): void {
    active = looks && setup[S.FREE_REACTION] !== Reaction.OFF;
    learnt = 0;
    // What spoke for it spoke of another floor.
    if (!active || watch.found === 0) clear();
  }

  return watch;
}
