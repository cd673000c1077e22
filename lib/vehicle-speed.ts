import type { BackEmf } from './back-emf.ts';
import { Flag, Layout } from './codes.ts';
import { V } from './constants.ts';

/**
 * Speed over ground by acceleration-limited tracking: m dv/dt = sum(T i) - drag says how fast the
 * vehicle can gain speed, and the slowest of the driving wheels (in braking the fastest) draws the
 * estimate to itself, but never faster than MOST_FOLLOW.
 */
export interface VehicleSpeed {
  /** mm/s, forward positive. */
  speed: number;
  /**
   * @param motors of this tick
   * @param steer steering command, permille of full lock, left positive
   * @param stop time that forbids, ms
   * @returns Flag.SPEED_HELD while nothing tells the speed, else 0
   */
  run(motors: BackEmf, steer: number, stop: number): number;
}

/** How fast the estimate follows the wheels, per s, and at most, mm/s each ms. */
const FOLLOW_PER_S = 4;
const MOST_FOLLOW = 2;

/** @param vehicle constants of the vehicle */
export function createVehicleSpeed(vehicle: number[]): VehicleSpeed {
  const count = vehicle[V.EMF_UV] > 0 ? vehicle[V.MOTORS] : 0;
  const thrust = vehicle[V.THRUST_MN_A] / 1000;
  const mass = vehicle[V.MASS_G];
  const drag = vehicle[V.DRAG_MN] + thrust * vehicle[V.NO_LOAD_MA] * count;
  const lead = vehicle[V.LAYOUT] === Layout.TRACKED ? 0 : vehicle[V.SIDE_LEAD] / 1000000;
  // A record holds 16 bits.
  const top = vehicle[V.TOP_SPEED_MM_S] < 16000 ? vehicle[V.TOP_SPEED_MM_S] * 2 : 32000;
  const lag = vehicle[V.SPEED_LAG_MS];
  const vehicleSpeed = { speed: 0, run: run };

  function run(motors: BackEmf, steer: number, stop: number): number {
    const i = motors.current;
    const known = motors.known;
    const sum = i[0] + i[1] + (i[2] + i[3]);
    let speed = vehicleSpeed.speed;
    // Worked out in the direction of travel, so that reverse is the mirror of forward.
    const back = speed < 0 || (speed === 0 && sum < 0);
    let force = 0;
    if (back) speed = 0 - speed;
    if (known > 0) {
      force = ((back ? 0 - sum : sum) * thrust * count) / known;
      const next = speed + ((force - drag) * stop) / mass;
      speed = next < 0 && force > 0 - drag ? 0 : next;
    } else speed -= (speed * stop) / (lag + stop);
    const near = nearest(motors, steer, back, force >= 0, speed);
    if (near !== NONE) {
      const step = ((near - speed) * FOLLOW_PER_S * stop) / 1000;
      const most = MOST_FOLLOW * stop;
      speed += step > most ? most : step < 0 - most ? 0 - most : step;
    }
    if (speed > top) speed = top;
    else if (speed < 0 - top) speed = 0 - top;
    vehicleSpeed.speed = back ? 0 - speed : speed;
    return near === NONE ? Flag.SPEED_HELD : 0;
  }

  /** Speed of the vehicle as the wheel tells it that slips least, mm/s in the direction of travel. */
  function nearest(
    motors: BackEmf,
    steer: number,
    back: boolean,
    drives: boolean,
    speed: number,
  ): number {
    let near = NONE;
    const side = lead * steer;
    for (let m = 0; m < count; m++) {
      const told = motors.told[m];
      if (told === 0) continue;
      const w = motors.wheel[m] / ((m & 1) === 0 ? 1 - side : 1 + side);
      const way = back ? 0 - w : w;
      if (told === 2 && way < speed) continue;
      if (near === NONE || (drives ? way < near : way > near)) near = way;
    }
    return near;
  }

  return vehicleSpeed;
}

/** No wheel tells a speed; further than any speed. */
const NONE = -1000000000;
