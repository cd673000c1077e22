import { AT_REST, type BackEmf } from './back-emf.ts';
import { V } from './constants.ts';

/**
 * Measures each straight start forward from rest: how much more the wheels turned than the
 * vehicle can have moved, and under which force. See lib/front-watch.ts.
 */
export interface StartSlip {
  /** Low-passed speed of the wheels in the end over the one reckoned from the currents. */
  ratio: number;
  /** Sums over the start, by force: of the wheels' speed, the reckoned one, force times speed. */
  wheels: number;
  speeds: number;
  pushed: number;
  /** Greatest low-passed force, mN. */
  most: number;
  /**
   * @param motors of this tick
   * @param ground speed of the vehicle, mm/s
   * @param last command of each motor in the last tick, permille
   * @param steer steering command, permille of full lock
   * @param stop time that forbids, ms
   * @returns true in the tick in which a start has ended that can be told from
   */
  run(motors: BackEmf, ground: number, last: number[], steer: number, stop: number): boolean;
}

/** Least command of a start and how soon it is there, permille, ms; greatest steering, permille. */
const COMMAND = 500;
const SOON = 400;
const STRAIGHT = 150;
/** Least and greatest length of a start, ms. */
const SHORTEST = 250;
const LONGEST = 1100;
/** Low-pass of force and speeds, ms. */
const SMOOTH = 50;
/** A start ends as the force has fallen to this share of its greatest. */
const FALLEN = 1 / 2;

/**
 * @param vehicle constants of the vehicle
 * @param count number of motors, at least 1
 */
export function createStartSlip(vehicle: number[], count: number): StartSlip {
  const thrust = vehicle[V.THRUST_MN_A] / 1000;
  const drag = vehicle[V.DRAG_MN] + thrust * vehicle[V.NO_LOAD_MA] * count;
  const mass = vehicle[V.MASS_G] + vehicle[V.ROTATING_G] * count;
  const rest = vehicle[V.TOP_SPEED_MM_S] * AT_REST;
  /** Time since rest, ms; negative = no start under way. */
  let time = -1;
  /** The command has been there. */
  let full = false;
  let speed = 0;
  let slowSpeed = 0;
  let slowWheel = 0;
  let slowForce = 0;
  const start = { ratio: 1, wheels: 0, speeds: 0, pushed: 0, most: 0, run: run };

  function run(
    motors: BackEmf,
    ground: number,
    last: number[],
    steer: number,
    stop: number,
  ): boolean {
    let least = last[0];
    let greatest = last[0];
    for (let m = 1; m < count; m++) {
      if (last[m] < least) least = last[m];
      if (last[m] > greatest) greatest = last[m];
    }
    if (least === 0 && greatest === 0 && ground < rest && ground > 0 - rest) begin();
    if (time < 0 || greatest === 0) return false;
    time += stop;
    if (least >= COMMAND) full = true;
    const bends = steer > STRAIGHT || steer < 0 - STRAIGHT;
    if (bends || motors.known < count || least < 0 || (!full && time > SOON)) {
      time = -1;
      return false;
    }
    const lifts = full && least < COMMAND;
    if (!lifts) follow(motors, stop);
    const falls = time > SHORTEST && slowForce < start.most * FALLEN;
    if (!lifts && !falls && time < LONGEST) return false;
    const told = full && time > SHORTEST && slowSpeed > rest && slowWheel > rest;
    time = -1;
    if (told) start.ratio = slowWheel / slowSpeed;
    return told;
  }

  function begin(): void {
    const self = start;
    time = 0;
    full = false;
    speed = 0;
    slowSpeed = 0;
    slowWheel = 0;
    slowForce = 0;
    self.most = 0;
    self.wheels = 0;
    self.speeds = 0;
    self.pushed = 0;
  }

  function follow(motors: BackEmf, stop: number): void {
    const self = start;
    const i = motors.current;
    const w = motors.wheel;
    const force = (i[0] + i[1] + (i[2] + i[3])) * thrust - drag;
    const wheel = (w[0] + w[1] + (w[2] + w[3])) / count;
    const share = stop / (SMOOTH + stop);
    speed += (force * stop) / mass;
    if (speed < 0) speed = 0;
    slowSpeed += (speed - slowSpeed) * share;
    slowWheel += (wheel - slowWheel) * share;
    slowForce += (force - slowForce) * share;
    if (slowForce > self.most) self.most = slowForce;
    if (force <= 0) return;
    self.wheels += wheel * force;
    self.speeds += speed * force;
    self.pushed += force * speed * force;
  }

  return start;
}
