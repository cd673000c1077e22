import { AT_REST, type BackEmf } from './back-emf.ts';
import { Layout } from './codes.ts';
import { V } from './constants.ts';
import type { VehicleSpeed } from './vehicle-speed.ts';

/**
 * Says which motor of a pair has lost its load to the other one. It compares the two, so that what
 * the description is wrong by falls out.
 * - Straight ahead they share the load as they did before: what one draws less than usual beside
 *   the other has gone over. What is usual is learnt anew after each bend. After rest it is
 *   nothing: a motor that stands draws V d / R, whatever its constant. Where tracks are driven and
 *   yet held by the ground, it is not learnt.
 * - Tracks that are driven apart scrub: the ground takes up a good part of the voltage between
 *   them, R i, and lets them turn apart by the rest. Where R explains but a quarter of it, one of
 *   them no longer drives: the one that draws less.
 */
export interface LoadShift {
  /** How much more has gone from each motor than needs be to say that it is lost, mA; or KEPT. */
  gone: number[];
  /**
   * @param motors of this tick
   * @param ground of this tick
   * @param last command of each motor in the last tick, permille
   * @param greatest current of any motor, mA
   * @param stop time that forbids, ms
   */
  run(motors: BackEmf, ground: VehicleSpeed, last: number[], greatest: number, stop: number): void;
}

/** None has gone, for sure. */
export const KEPT = -1000000;
/** Greatest steering and difference of commands that count as straight, permille. */
const STRAIGHT = 150;
const ALIKE = 12;
/** Least current of a motor that drives along, over that without load. */
const IDLES = 1 / 2;
/** Time that a bend is felt, that what is usual is learnt in, and its time constant, ms. */
const SETTLES = 300;
/** Share of the greatest current, in the mean and now, that must have gone over. */
const SHARE = 1 / 10;
/** Difference of commands that bends, permille, and how long that takes to show, ms. */
const BENDS = 30;
const SHOWS = 150;
/** Least command of the outer track then, permille. */
const DRIVEN = 300;
/** Speeds may be apart by so many times what R explains of the voltage between tracks. */
const SCRUBS = 3;

/** @param vehicle constants of the vehicle */
export function createLoadShift(vehicle: number[]): LoadShift {
  const count = vehicle[V.MOTORS] > 1 ? vehicle[V.MOTORS] : 0;
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const scrubs = (vehicle[V.MOTOR_MOHM] / vehicle[V.EMF_UV]) * SCRUBS;
  const slow = vehicle[V.TOP_SPEED_MM_S] * AT_REST;
  const error = vehicle[V.CURRENT_ERROR_MA];
  const idle = vehicle[V.NO_LOAD_MA] * IDLES;
  const gone = [0, 0, 0, 0];
  /** What the first of each pair usually draws more than the second, mA. */
  const usual = [0, 0, 0];
  /** Whether that is known; the greatest current in the mean, mA; time driven straight, ms. */
  let known = false;
  let mean = 0;
  let straight = 0;
  /** How much of this tick is learnt; least current that must have gone over, mA. */
  let share = 0;
  let least = 0;
  /** Time for which tracks have been driven apart, ms. */
  let bent = 0;

  function run(
    motors: BackEmf,
    ground: VehicleSpeed,
    last: number[],
    greatest: number,
    stop: number,
  ): void {
    const c = motors.current;
    const steer = ground.steer;
    const apart = last[0] - last[1];
    const both = last[0] + last[1];
    const way = both < 0 ? -1 : 1;
    const bends = steer > STRAIGHT || steer < 0 - STRAIGHT || apart > ALIKE || apart < 0 - ALIKE;
    const brakes = (c[0] + c[1]) * way < 0 - error;
    const stands = both === 0 && motors.told[0] + motors.told[1] === 0;
    const speed = ground.speed;
    const still = speed < slow && speed > 0 - slow;
    const rests = stands && still;
    // Tracks that the ground holds twist it: what each bears then says nothing of how they drive.
    const held = tracked && still && (c[0] * way < idle || c[1] * way < idle);
    const upset = bends || brakes || both === 0 || motors.known < count;
    straight = upset || (held && !known) ? 0 : straight + stop;
    if (rests || straight > SETTLES * 2) known = true;
    else if (upset) known = false;
    share = known ? 0 : 1;
    if (straight > SETTLES && !held) {
      share = stop / ((known ? SETTLES : straight - SETTLES) + stop);
    }
    least = (greatest > mean ? greatest : mean) * SHARE;
    mean += (greatest - mean) * share;
    if (count > 1) compare(c, 0, way, rests);
    if (count > 2) compare(c, 2, way, rests);
    if (tracked) scrub(motors, ground, last, apart * way > 0 ? 0 : 1, way, stop);
  }

  /** Motor `m` with the next one. */
  function compare(c: number[], m: number, way: number, rests: boolean): void {
    const more = c[m] - c[m + 1];
    const over = known ? (more - usual[m]) * way : 0;
    usual[m] = rests ? 0 : usual[m] + (more - usual[m]) * share;
    gone[m] = 0 - over - least;
    gone[m + 1] = over - least;
  }

  function scrub(
    motors: BackEmf,
    ground: VehicleSpeed,
    last: number[],
    outer: number,
    way: number,
    stop: number,
  ): void {
    const inner = outer ^ 1;
    const driven = last[outer] * way >= DRIVEN && last[inner] * way > 0;
    const apart = (last[outer] - last[inner]) * way > BENDS;
    bent = driven && apart && motors.told[0] * motors.told[1] > 0 ? bent + stop : 0;
    if (bent <= SHOWS) return;
    const more = (motors.current[outer] - motors.current[inner]) * way;
    const faster = (ground.along[outer] - ground.along[inner]) * way;
    const lost = more > 0 ? inner : outer;
    gone[lost] = faster > more * scrubs ? 1 : KEPT;
    gone[lost ^ 1] = KEPT;
  }

  return { gone: gone, run: run };
}
