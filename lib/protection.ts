import { Cause, Flag } from './codes.ts';
import { V } from './constants.ts';
import { createMotorGuard, type MotorGuard } from './motor-guard.ts';
import { createSupplyGuard } from './supply-guard.ts';

/**
 * Lowers the drive so that cells and motors stay within their budget. It only ever lowers, and all
 * motors in the same ratio, so that the split between them stays.
 */
export interface Protection {
  /** What is left of the commands, permille, 0 to 1000, not rounded. */
  limit: number;
  /** The fault present now, or Cause.NONE. */
  cause: number;
  /** Bits of Flag: what lowers the drive. */
  flags: number;
  /**
   * @param goal command of each motor, permille; lowered in place
   * @param last command of each motor in the last tick, permille
   * @param batteryMv supply voltage, mV, or MISSING
   * @param currentMa current of each motor, mA, or MISSING
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   */
  step(
    goal: number[],
    last: number[],
    batteryMv: number,
    currentMa: number[],
    rise: number,
    stop: number,
  ): void;
}

/** @param vehicle constants of the vehicle */
export function createProtection(vehicle: number[]): Protection {
  const count = vehicle[V.MOTORS];
  const supply = createSupplyGuard(vehicle);
  const motors: MotorGuard[] = [];
  for (let i = 0; i < count; i++) motors.push(createMotorGuard(vehicle));
  const self = { limit: 1000, cause: Cause.NONE as number, flags: 0, step: step };

  function step(
    goal: number[],
    last: number[],
    batteryMv: number,
    currentMa: number[],
    rise: number,
    stop: number,
  ): void {
    supply.step(batteryMv, rise, stop);
    let limit = supply.limit;
    let flags = supply.derating < 1000 ? Flag.SUPPLY_LIMIT : 0;
    let cause = supply.cause;
    let lost = supply.lost;
    let most = 0;
    for (let i = 0; i < count; i++) {
      const motor = motors[i];
      motor.step(currentMa[i], last[i], goal[i], supply.voltage, stop);
      if (motor.heat < 1000) flags |= Flag.HEAT_LIMIT;
      if (motor.heat < limit) limit = motor.heat;
      if (motor.cause > cause) cause = motor.cause;
      lost |= motor.lost;
      const a = goal[i] < 0 ? 0 - goal[i] : goal[i];
      if (a > most) most = a;
      const b = last[i] < 0 ? 0 - last[i] : last[i];
      // A command that is too high already falls at the stop rate, wherever its goal lies.
      if (b > motor.ceiling) flags |= Flag.CURRENT_LIMIT;
      const left = a > 0 ? (motor.ceiling * 1000) / a : 1000;
      if (left < limit && (b === 0 || goal[i] > 0 === last[i] > 0)) {
        limit = left;
        flags |= Flag.CURRENT_LIMIT;
      }
    }
    if (lost !== 0) {
      flags |= Flag.SENSOR_LOST;
      if (most * limit > vehicle[V.BLIND_CAP] * 1000) {
        limit = (vehicle[V.BLIND_CAP] * 1000) / most;
      }
    }
    for (let i = 0; i < count; i++) goal[i] = (goal[i] * limit) / 1000;
    self.limit = limit;
    self.cause = cause;
    self.flags = flags;
  }

  return self;
}
