import type { BackEmf } from './back-emf.ts';
import { Found, Reaction } from './codes.ts';
import { S, V } from './constants.ts';
import { cusum } from './cusum.ts';
import { createStartSlip } from './start-slip.ts';

/**
 * Tells from start to start whether the front axle, driven at the mean of the rear sides, still
 * pulls. A tyre carries force by slip s = c F. Where the front no longer pulls, the rear alone
 * carries F: it slips twice as much under the same force, and lets go at the 0.6 to 0.7 of the
 * force that all wheels bear together.
 *
 * Over a straight start from rest, v = sum(T i - drag) dt / m times a ratio r that holds once the
 * force has fallen off. What the wheels turned more, sum(F (w / r - v)) over sum(F v), is their
 * mean slip; sum(F F v) over sum(F v) the force that went with it. Both are compared with those of earlier
 * starts of the same vehicle, so that constant errors of R, K, T and m cancel. A start counts as a
 * sign only if it carried clearly less than the greatest force ever carried: slip at that force is
 * that of all wheels. The CUSUM of all starts alarms, not a single one.
 *
 * What it cannot tell: anything without starts in which the rear alone comes near its limit, as on a
 * floor with more grip than the motors can use; and a floor with a third less grip, which looks
 * the same. It learns from two starts at least. Only starts forward are looked at.
 * The setup's words for false alarms mean time, so they do not set this CUSUM over starts: its k
 * and h are its own.
 */
export interface FrontWatch {
  /** Found.FRONT_FREE or 0; stays until cleared. */
  found: number;
  /** How sure it is, permille, 500 at the threshold; may pass 1000. */
  sure: number;
  /**
   * @param motors of this tick
   * @param speed of the vehicle, mm/s
   * @param last command of each motor in the last tick, permille
   * @param steer steering command, permille of full lock
   * @param stop time that forbids, ms
   */
  run(motors: BackEmf, speed: number, last: number[], steer: number, stop: number): void;
  /** Lets go of the finding and its evidence; what was learnt of the vehicle stays. */
  clear(): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** A start at less than this share of the greatest force ever may be a sign; what of that stays. */
const LESS = 87 / 100;
const STAYS = 995 / 1000;
/** Spread of the mean slip from start to start; of the ratio r. */
const SPREAD = 3 / 100;
const RATIO = 3 / 100;
/** Starts that are learnt from at first without question; then in the mean. */
const FIRST = 2;
const MANY = 8;
/** Reference value and decision interval of the CUSUM over starts; the sum rises no further. */
const K = 1 / 2;
const H = 3;
const FULL = 2;
/** Most that a start tells: no single one alarms. */
const MOST = 3;

/** @param vehicle constants of the vehicle */
export function createFrontWatch(vehicle: number[]): FrontWatch {
  const senses = vehicle[V.EMF_UV] > 0 && vehicle[V.HAS_CURRENT] === 1;
  const looks = senses && vehicle[V.FRONT_AVERAGED] === 1;
  const start = createStartSlip(vehicle, vehicle[V.MOTORS]);
  let active = false;
  /** Of all starts: how many, slip over force, ratio r, greatest force, evidence. */
  let learnt = 0;
  let soft = 0;
  let ratio = 1;
  let best = 0;
  let sum = 0;
  const watch = { found: 0, sure: 0, run: run, clear: clear, load: load };

  function run(motors: BackEmf, speed: number, last: number[], steer: number, stop: number): void {
    if (!active || !start.run(motors, speed, last, steer, stop)) return;
    const self = watch;
    const speeds = start.speeds;
    const most = start.most;
    let own = start.ratio;
    if (learnt > 0) {
      // Wheels that still spin in the end would hide that they did.
      if (own > ratio * (1 + RATIO)) own = ratio * (1 + RATIO);
      else if (own < ratio * (1 - RATIO)) own = ratio * (1 - RATIO);
    }
    const slip = (start.wheels / own - speeds) / speeds;
    const mean = start.pushed / speeds;
    let z = learnt < FIRST ? 0 : (slip - soft * mean) / SPREAD;
    if (most >= best * LESS && z > 0) z = 0;
    best = best * STAYS > most ? best * STAYS : most;
    if (z < 1) {
      if (learnt < MANY) learnt++;
      soft += (slip / mean - soft) / learnt;
      ratio += (own - ratio) / learnt;
    }
    sum = cusum(sum, z > MOST ? MOST : z, K, H * FULL);
    if (sum > H) self.found = Found.FRONT_FREE;
    self.sure = (sum * 500) / H;
  }

  function clear(): void {
    sum = 0;
    watch.found = 0;
    watch.sure = 0;
  }

  function load(setup: number[]): void {
    active = looks && setup[S.FREE_REACTION] !== Reaction.OFF;
    if (!active) clear();
  }

  return watch;
}
