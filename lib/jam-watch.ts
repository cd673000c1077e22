import { Layout } from './codes.ts';
import { V } from './constants.ts';

/**
 * Says how surely a wheel is held fast that should turn: its motor is driven, its current lies on
 * the stall line, and yet it is due a speed. Two things say so.
 * - From rest: all motors' currents set the vehicle in motion; the speed due grows by at least a
 *   share of what it gains by them, with drag as learnt. It counts up to what sets a slow wheel
 *   apart from one that stands: a slope may hold a vehicle back.
 * - Under way: the speed it had. No ground brakes a wheel that its motor drives to less than the
 *   vehicle's speed, so that it cannot be gone within a tick or two. A small command drives little:
 *   a vehicle that slides against its wheels takes them along, whatever speed they had.
 * After a change of direction a wheel is due its speed backwards, for braking may lock it. Tracks
 * scrub in bends: there a track is due no more than the other one does.
 */
export interface JamWatch {
  /** Greatest current of any motor, mA. */
  greatest: number;
  /**
   * Once a tick, before the motors.
   *
   * @param current of each motor, mA
   * @param gained speed that the vehicle gains in this tick by all currents, mm/s
   * @param stop time that forbids, ms
   */
  begin(current: number[], gained: number, stop: number): void;
  /** Motor `m` is not driven: what its wheel was due, and what it had, ends with its command. */
  rest(m: number): void;
  /**
   * Everything in the direction of the command.
   *
   * @param d command in the last tick, permille, signed
   * @param i current, mA
   * @param w speed of the tyre, mm/s
   * @param u speed of the vehicle, mm/s
   * @param loose what w may be wrong by, mm/s
   * @param noise standard deviation of w at most, mm/s
   * @param most greatest speed that may be due, mm/s
   * @returns what is missing of the speed that is due, in standard deviations
   */
  run(
    m: number,
    d: number,
    i: number,
    w: number,
    u: number,
    loose: number,
    noise: number,
    most: number,
  ): number;
}

/** Least current that tells anything, in errors of a sample. */
const LEAST_CURRENT = 3;
/** Least command that tells from rest, permille; on tracks, which the ground may hold, at all. */
const LEAST_COMMAND = 290;
/** Least command that tells under way, permille. */
const LEAST_UNDER_WAY = 150;
/** Share of that gain at which a vehicle must at least set off. */
const START = 85 / 100;
/** A wheel turns for sure from this speed on, in standard deviations. */
const TURNS = 3;
/** Share of R i that a speed must reach to be told from none, and of what w may be wrong by. */
const TOLD = 20 / 100;
const BESIDE = 7 / 10;
/** Share of the speed that a wheel had below which it has stopped; how fast that fades, per s. */
const HAD = 6 / 10;
const FADES = 12;
/** Noise is half as great again at most as it is; bounds of what a sample may tell. */
const SHARPER = 3 / 2;
const MOST = 6;
const LEAST = -4;

/** @param vehicle constants of the vehicle */
export function createJamWatch(vehicle: number[]): JamWatch {
  const motors = vehicle[V.MOTORS];
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const weakest = tracked ? LEAST_COMMAND : LEAST_UNDER_WAY;
  const least = vehicle[V.CURRENT_ERROR_MA] * LEAST_CURRENT;
  const told = (vehicle[V.MOTOR_MOHM] / vehicle[V.EMF_UV]) * TOLD;
  const due = [0, 0, 0, 0];
  /** Speed each wheel had, forward positive. */
  const had = [0, 0, 0, 0];
  let gain = 0;
  let keeps = 1;
  const watch = { greatest: 0, begin: begin, rest: rest, run: run };

  function begin(c: number[], gained: number, stop: number): void {
    let most = 0;
    for (let m = 0; m < motors; m++) {
      const a = c[m] < 0 ? 0 - c[m] : c[m];
      if (a > most) most = a;
    }
    gain = gained * START;
    keeps = 1000 / (1000 + FADES * stop);
    watch.greatest = most;
  }

  function rest(m: number): void {
    due[m] = 0;
    had[m] = 0;
  }

  function run(
    m: number,
    d: number,
    i: number,
    w: number,
    u: number,
    loose: number,
    noise: number,
    most: number,
  ): number {
    if (d === 0) return -1;
    const weak = i < least;
    const bound = loose + noise * TURNS;
    const speed = due[m] + gain;
    if (u < 0 && u < speed) due[m] = u;
    else if (weak || (w > bound && w < speed)) due[m] = w;
    else due[m] = speed > most ? most : speed;
    let last = (d < 0 ? 0 - had[m] : had[m]) * keeps;
    if (weak || last < 0) last = w > 0 ? w : 0;
    else {
      if (w > last) last = w;
      if (last > u) last = u > 0 ? u : 0;
      if (tracked && last > most) last = most;
    }
    had[m] = d < 0 ? 0 - last : last;
    const command = d < 0 ? 0 - d : d;
    if (weak || command < weakest || w < 0 - bound) return -1;
    const slow = command < LEAST_COMMAND ? 0 : loose * BESIDE + i * told;
    const since = due[m] < slow ? due[m] : slow;
    const missed = since > last * HAD ? since : last * HAD;
    if (missed < noise) return -1;
    const z = ((missed - w) * SHARPER) / noise;
    return z > MOST ? MOST : z < LEAST ? LEAST : z;
  }

  return watch;
}
