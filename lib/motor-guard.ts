import { Cause, Flag } from './codes.ts';
import { V } from './constants.ts';
import { MISSING } from './signals.ts';
import { createWindings, type Windings } from './winding.ts';

/**
 * Watches the motors by their currents: ceiling, stall time, winding heat.
 *
 * Ceiling, from V d = R i + k w with the speed w unchanged over one tick: a command may exceed the
 * last one by at most (limit - i) R / V.
 * Stall: at w = 0 the current is V d / R; a current near it for too long is a stalled motor.
 */
export interface MotorGuard {
  /** Cause.STALLED or Cause.OVERHEATED while present in any motor, else Cause.NONE. */
  fault: number;
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
  const stalled = [0, 0, 0, 0];
  let heatedFor = 0;
  let heat = 1000;
  const guard = { fault: Cause.NONE as number, flags: 0, lost: 0, windings: windings, run: run };

  function run(
    currentMa: number[],
    last: number[],
    goal: number[],
    mv: number,
    stop: number,
  ): number {
    let left = 1000;
    let limited = 0;
    let lost = 0;
    for (let i = 0; i < count; i++) {
      const before = last[i];
      const wanted = goal[i];
      const ma = currentMa[i];
      const command = before < 0 ? 0 - before : before;
      const back = before < 0 || (before === 0 && wanted < 0);
      // Positive while the motor drives in the present direction.
      let current = back ? 0 - ma : ma;
      if (ma === MISSING) {
        // Taken as the ceiling's share, or as that of a motor held still: heat goes on counting.
        current = most > 0 ? (most * command) / 1000 : (mv * command) / resistance;
        lost = 1;
        // A stall that began goes on unseen while the motor is driven.
        if (stalledFor[i] > 0) countStall(i, command > 0, stop);
      } else {
        if (most > 0 && mv > 0) {
          let ceiling = command + ((most - current) * resistance) / mv;
          if (ceiling < 0) ceiling = 0;
          // A command that is too high already falls at the stop rate, wherever its goal lies.
          if (command > ceiling) limited = 1;
          const a = back ? 0 - wanted : wanted;
          if (a * left > ceiling * 1000) {
            left = (ceiling * 1000) / a;
            limited = 1;
          }
        }
        if (current >= stallLeast || stalledFor[i] > 0) {
          const atRest = (mv * command) / resistance;
          const near = atRest > 0 && current >= atRest * stallShare && current >= stallLeast;
          countStall(i, near, stop);
        }
      }
      squares[i] += current * current * stop;
    }
    heatedFor += stop;
    if (heatedFor >= HEAT_STEP_MS) warm();
    let flags: number = limited === 1 ? Flag.CURRENT_LIMIT : 0;
    if (heat < 1000) flags += Flag.HEAT_LIMIT;
    if (heat < left) left = heat;
    guard.flags = flags;
    guard.lost = lost;
    return left;
  }

  function countStall(i: number, near: boolean, stop: number): void {
    if (near && stallTime > 0) stalledFor[i] += stop;
    else stalledFor[i] = stalledFor[i] > stop ? stalledFor[i] - stop : 0;
    if (stalledFor[i] > stallTime) stalledFor[i] = stallTime;
    if (stalledFor[i] === 0 || stalledFor[i] === stallTime) stalled[i] = stalledFor[i] > 0 ? 1 : 0;
    guard.fault = causeOf(windings, stalled, count);
  }

  function warm(): void {
    heat = 1000;
    for (let i = 0; i < count; i++) {
      const left = windings.run(i, squares[i] / heatedFor, heatedFor);
      if (left < heat) heat = left;
      squares[i] = 0;
    }
    heatedFor = 0;
    guard.fault = causeOf(windings, stalled, count);
  }

  return guard;
}

/** The gravest cause that any motor gives. */
function causeOf(windings: Windings, stalled: number[], count: number): number {
  let cause: number = Cause.NONE;
  for (let i = 0; i < count; i++) {
    if (windings.hot[i] === 1 && cause === Cause.NONE) cause = Cause.OVERHEATED;
    if (stalled[i] === 1) cause = Cause.STALLED;
  }
  return cause;
}
