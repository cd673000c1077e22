import { AT_REST, type BackEmf } from './back-emf.ts';
import { V } from './constants.ts';
import type { Windings } from './winding.ts';

/**
 * Takes the sums of each straight start forward from rest from which the slip of its wheels can be
 * told. See lib/front-watch.ts.
 */
export interface StartSlip {
  /**
   * Sums over the ticks of a start of uu, ui, ux, ii, ix, xx, vu, vi and vx, in that order. u: the
   * speed that the currents give the vehicle, mm/s; i: current of both motors, times how their
   * windings' resistance has risen, mA; x: force times u, mN mm/s; v: voltage of both motors, uV,
   * or speed of both wheels where it is measured, mm/s.
   */
  sums: number[];
  /**
   * @param motors of this tick
   * @param mv supply voltage under load, mV
   * @param ground estimated speed of the vehicle, mm/s
   * @param last command of each motor in the last tick, permille
   * @param steer steering command, permille of full lock
   * @param stop time that forbids, ms
   * @returns true in the tick in which a start has ended that can be told from
   */
  run(
    motors: BackEmf,
    mv: number,
    ground: number,
    last: number[],
    steer: number,
    stop: number,
  ): boolean;
}

/** Products that are summed. */
const KINDS = 9;
/** Least command of a start and greatest steering, permille. */
const COMMAND = 500;
const STRAIGHT = 150;
/** Least and greatest length of a start, ms. */
const SHORTEST = 250;
const LONGEST = 1100;
/** Low-pass of current and voltage, ms: noise of the current is in both. */
const SMOOTH = 20;
/** A start ends once its greatest force has been so many times the present one. */
const FALLEN = 2;

/**
 * @param vehicle constants of a vehicle with two motors
 * @param windings heat of each motor's winding
 */
export function createStartSlip(vehicle: number[], windings: Windings): StartSlip {
  const thrust = vehicle[V.THRUST_MN_A] / 1000;
  const drag = vehicle[V.DRAG_MN] + 2 * thrust * vehicle[V.NO_LOAD_MA];
  const mass = vehicle[V.MASS_G] + 2 * vehicle[V.ROTATING_G];
  const rest = vehicle[V.TOP_SPEED_MM_S] * AT_REST;
  const copper = vehicle[V.COPPER_PPM_K] / 2000000;
  const measured = vehicle[V.HAS_WHEEL_SPEED] === 1;
  const sums = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  /** Time since rest, ms; negative = no start under way. */
  let time = -1;
  /** 1 once the command has been there. */
  let full = 0;
  let speed = 0;
  let current = 0;
  let voltage = 0;
  let force = 0;
  let most = 0;
  const start = { sums: sums, run: run };

  function run(
    motors: BackEmf,
    mv: number,
    ground: number,
    last: number[],
    steer: number,
    stop: number,
  ): boolean {
    const left = last[0];
    const right = last[1];
    const least = left < right ? left : right;
    if (left === 0 && right === 0) {
      if (ground < rest && ground > 0 - rest) begin();
      return false;
    }
    if (time < 0) return false;
    time += stop;
    if (least >= COMMAND) full = 1;
    const bends = steer > STRAIGHT || steer < 0 - STRAIGHT;
    if (bends || motors.known < 2 || least < 0) {
      time = -1;
      return false;
    }
    const lifts = full === 1 && least < COMMAND;
    if (!lifts) follow(motors, mv * (left + right), stop);
    if (!lifts && (time <= SHORTEST || force * FALLEN >= most) && time < LONGEST) return false;
    const told = full === 1 && time > SHORTEST && sums[5] > 0;
    time = -1;
    return told;
  }

  function begin(): void {
    time = 0;
    full = 0;
    speed = 0;
    current = 0;
    voltage = 0;
    most = 0;
    for (let k = 0; k < KINDS; k++) sums[k] = 0;
  }

  function follow(motors: BackEmf, uv: number, stop: number): void {
    const w = motors.wheel;
    const share = stop / (SMOOTH + stop);
    current += (motors.current[0] + motors.current[1] - current) * share;
    voltage += ((measured ? w[0] + w[1] : uv) - voltage) * share;
    force = current * thrust - drag;
    if (force > most) most = force;
    speed += (force * stop) / mass;
    if (speed < 0) speed = 0;
    const heat = 1 + copper * (windings.rise[0] + windings.rise[1]);
    add(sums, voltage, speed, current * heat, force * speed);
  }

  return start;
}

function add(s: number[], v: number, u: number, i: number, x: number): void {
  s[0] += u * u;
  s[1] += u * i;
  s[2] += u * x;
  s[3] += i * i;
  s[4] += i * x;
  s[5] += x * x;
  s[6] += v * u;
  s[7] += v * i;
  s[8] += v * x;
}
