import { V } from './constants.ts';

/**
 * Says how surely a wheel is held fast that should turn. All motors' currents set the vehicle in
 * motion: it is due a speed, which grows by at least a share of T sum(i) / m since the motor was
 * last commanded nothing or its wheel last turned. After a change of direction it is due its speed
 * backwards, for braking may lock a wheel.
 */
export interface JamWatch {
  /** Greatest current of any motor, mA. */
  greatest: number;
  /**
   * Once a tick, before the motors.
   *
   * @param current of each motor, mA
   * @param stop time that forbids, ms
   */
  begin(current: number[], stop: number): void;
  /**
   * Everything in the direction of the command.
   *
   * @param d command in the last tick, permille, signed
   * @param i current, mA
   * @param w speed of the tyre, mm/s
   * @param u speed of the vehicle, mm/s
   * @param loose what w may be wrong by, mm/s
   * @param noise standard deviation of w, mm/s
   * @returns what is missing of the speed that is due, in standard deviations
   */
  run(m: number, d: number, i: number, w: number, u: number, loose: number, noise: number): number;
}

/** Share of the least stall current from which a motor may be held fast. */
const BLOCKED = 3 / 4;
/** Share of its acceleration at which a vehicle must at least set off. */
const START = 7 / 20;
/** A wheel turns for sure from this speed on, in standard deviations. */
const TURNS = 3;

/** @param vehicle constants of the vehicle */
export function createJamWatch(vehicle: number[]): JamWatch {
  const motors = vehicle[V.MOTORS];
  const idle = vehicle[V.NO_LOAD_MA] * motors;
  const blocked = vehicle[V.STALL_MIN_MA] * BLOCKED;
  const mass = vehicle[V.MASS_G] + motors * vehicle[V.ROTATING_G];
  const start = (vehicle[V.THRUST_MN_A] * START) / 1000 / mass;
  const top = vehicle[V.TOP_SPEED_MM_S];
  const due = [0, 0, 0, 0];
  let gain = 0;
  const watch = { greatest: 0, begin: begin, run: run };

  function begin(c: number[], stop: number): void {
    let most = 0;
    for (let m = 0; m < motors; m++) {
      const a = c[m] < 0 ? 0 - c[m] : c[m];
      if (a > most) most = a;
    }
    const a = c[0] + c[1];
    const b = c[2] + c[3];
    const sum = (a < 0 ? 0 - a : a) + (b < 0 ? 0 - b : b) - idle;
    gain = sum > 0 ? sum * start * stop : 0;
    watch.greatest = most;
  }

  function run(
    m: number,
    d: number,
    i: number,
    w: number,
    u: number,
    loose: number,
    noise: number,
  ): number {
    if (d === 0) {
      due[m] = u < 0 ? u : 0;
      return -1;
    }
    const bound = loose + noise * TURNS;
    const speed = due[m] + gain;
    if (u < 0 && u < speed) due[m] = u;
    else due[m] = w > bound || (i < blocked && due[m] >= 0) ? w : speed > top ? top : speed;
    if (i < blocked) return -1;
    return ((due[m] < bound ? due[m] : bound) - (w < 0 ? 0 - w : w)) / noise;
  }

  return watch;
}
