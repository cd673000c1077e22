import { AT_REST } from './back-emf.ts';
import { V } from './constants.ts';

/**
 * Learns by how much T over m is wrong. Over a start, from rest until the current has fallen off
 * and the wheels grip again, momentum and wheels must agree, whatever they did in between.
 */
export interface StartRatio {
  /** Speed that the wheels show over that reckoned from the currents. */
  ratio: number;
  /** How wrong that may still be. */
  unsure: number;
  /**
   * Everything in the direction of travel.
   *
   * @param wheel mean speed of the wheels, mm/s
   * @param pull sum of the currents, mA
   * @param gain of speed in this tick, by momentum, mm/s
   * @param speed of the vehicle, mm/s
   * @param steer steering command, permille
   * @param time length of the tick, ms
   */
  run(wheel: number, pull: number, gain: number, speed: number, steer: number, time: number): void;
}

/** Uncertainty before anything is learnt, and bound of what is, in model errors. */
const UNLEARNT = 3;
/** Greatest time, ms, and steering, permille; least speed, over the top speed. */
const LONGEST = 2500;
const STRAIGHT = 400;
const FAST = 15 / 100;

/** @param vehicle constants of the vehicle */
export function createStartRatio(vehicle: number[]): StartRatio {
  const learnt = vehicle[V.MODEL_ERROR] / 1000;
  const rest = vehicle[V.TOP_SPEED_MM_S] * AT_REST;
  const enough = vehicle[V.TOP_SPEED_MM_S] * FAST;
  let gained = 0;
  let most = 0;
  let lasted = LONGEST;
  const starts = { ratio: 1, unsure: learnt * UNLEARNT, run: run };

  function run(
    wheel: number,
    pull: number,
    gain: number,
    speed: number,
    steer: number,
    time: number,
  ): void {
    if (speed < rest && wheel < rest && wheel > 0 - rest) {
      gained = 0;
      most = 0;
      lasted = 0;
    }
    if (lasted >= LONGEST) return;
    lasted += time;
    gained += gain;
    if (gained < 0) gained = 0;
    if (pull > most) most = pull;
    if (pull < 0 || steer > STRAIGHT || steer < 0 - STRAIGHT) lasted = LONGEST;
    else if (pull * 2 < most && gained > enough && wheel > enough) {
      const self = starts;
      const bound = learnt * UNLEARNT;
      const next = wheel / gained;
      const kept = next > 1 + bound ? 1 + bound : next < 1 - bound ? 1 - bound : next;
      self.ratio += (kept - self.ratio) / 2;
      self.unsure = (self.unsure + learnt) / 2;
      lasted = LONGEST;
    }
  }

  return starts;
}
