import { Cause, Flag } from './codes.ts';
import { V } from './constants.ts';
import { Fit } from './fit.ts';
import { MISSING } from './signals.ts';
import { createWindings, type Windings } from './winding.ts';

/**
 * Watches the motors by their currents: ceiling, stall time, winding heat.
 *
 * Ceiling, from V d = R i + k w with the speed w unchanged over one tick: a command may exceed the
 * last one by at most (limit - i) R / V.
 * Stall: at w = 0 the current is V d / R, with R at the winding's heat; a current near it for too
 * long is a stalled motor.
 */
export interface MotorGuard {
  /** Bits of Flag: what lowers the motors' commands; without SENSOR_LOST. */
  flags: number;
  /** 1 if a current was missing in this tick. */
  lost: number;
  /** Heat of each motor's winding. */
  windings: Windings;
  /**
   * @param currentMa current of each motor, mA, or MISSING
   * @param last command of each motor in the last tick, permille; its sign, or at rest the goal's,
   *   is the present direction
   * @param goal what each motor is to be commanded, permille
   * @param mv supply voltage, mV
   * @param stop as in Clock, ms
   * @returns what may stay of the goals, permille, 0 to 1000
   */
  run(currentMa: number[], last: number[], goal: number[], mv: number, stop: number): number;
  /** Cause.STALLED or Cause.OVERHEATED while present in any motor, else Cause.NONE. */
  fault(): number;
}

/** Heat moves in seconds: it is worked out once in so many ms, from the mean of the squares. */
export const HEAT_STEP_MS = 80;

/** @param vehicle constants of the vehicle */
export function createMotorGuard(vehicle: number[]): MotorGuard {
  const count = vehicle[V.HAS_CURRENT] === 1 ? vehicle[V.MOTORS] : 0;
  const resistance = vehicle[V.MOTOR_MOHM];
  const most = vehicle[V.CURRENT_LIMIT_MA];
  const stallTime = vehicle[V.STALL_MS];
  const stallShare = vehicle[V.STALL_SHARE] / 1000;
  const stallLeast = vehicle[V.STALL_MIN_MA];
  const windings = createWindings(vehicle);
  const squares = [0, 0, 0, 0];
  const stalledFor = [0, 0, 0, 0];
  /** Bit of each motor. */
  let stalled = 0;
  let heatedFor = 0;
  let heat = 1000;
  const guard = { flags: 0, lost: 0, windings: windings, run: run, fault: fault };

  function run(
    currentMa: number[],
    last: number[],
    goal: number[],
    mv: number,
    stop: number,
  ): number {
    let left = 1000;
    let flags = 0;
    let lost = 0;
    for (let i = 0; i < count; i++) {
      const before = last[i];
      const wanted = goal[i];
      const ma = currentMa[i];
      const command = before < 0 ? 0 - before : before;
      const way = before < 0 || (before === 0 && wanted < 0) ? -1 : 1;
      // Positive while the motor drives in the present direction.
      let current = ma * way;
      let near = false;
      if (ma === MISSING) {
        // Taken as the ceiling's share, or as that of a motor held still: heat goes on counting.
        current = most > 0 ? (most * command) / 1000 : (mv * command) / resistance;
        lost = 1;
        // A stall that began goes on unseen while the motor is driven.
        near = stalledFor[i] > 0 && command > 0;
      } else {
        if (most > 0 && mv > 0) {
          let ceiling = command + ((most - current) * resistance) / mv;
          if (ceiling < 0) ceiling = 0;
          // A command that is too high already falls at the stop rate, wherever its goal lies.
          if (command > ceiling) flags = Flag.CURRENT_LIMIT;
          const a = wanted * way;
          if (a * left > ceiling * 1000) {
            left = (ceiling * 1000) / a;
            flags = Flag.CURRENT_LIMIT;
          }
        }
        if (current >= stallLeast) {
          const atRest = (mv * command) / windings.ohm(i);
          near = atRest > 0 && current >= atRest * stallShare;
        }
      }
      // Else it counts down to where it is.
      if (Fit.BYTES_COUNT || near || stalledFor[i] > 0) countStall(i, near, stop);
      squares[i] += current * current * stop;
    }
    heatedFor += stop;
    if (heatedFor >= HEAT_STEP_MS) warm();
    guard.flags = heat < 1000 ? flags + Flag.HEAT_LIMIT : flags;
    guard.lost = lost;
    return heat < left ? heat : left;
  }

  function countStall(i: number, near: boolean, stop: number): void {
    let time = stalledFor[i] + (near ? stop : 0 - stop);
    if (time > stallTime) time = stallTime;
    if (time < 0) time = 0;
    stalledFor[i] = time;
    if (time === 0) stalled &= ~(1 << i);
    else if (time === stallTime) stalled |= 1 << i;
  }

  function warm(): void {
    heat = 1000;
    for (let i = 0; i < count; i++) {
      const left = windings.run(i, squares[i] / heatedFor, heatedFor);
      if (left < heat) heat = left;
      squares[i] = 0;
    }
    heatedFor = 0;
  }

  /** The gravest cause that any motor gives. */
  function fault(): number {
    return stalled !== 0 ? Cause.STALLED : windings.hot !== 0 ? Cause.OVERHEATED : Cause.NONE;
  }

  return guard;
}
