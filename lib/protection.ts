import { Flag } from './codes.ts';
import { V } from './constants.ts';
import { greatest } from './greatest.ts';
import { createMotorGuard, type MotorGuard } from './motor-guard.ts';
import { createSupplyGuard, type SupplyGuard } from './supply-guard.ts';

/**
 * Lowers the drive so that cells and motors stay within their budget. It only ever lowers, and all
 * motors in the same ratio, so that the split between them stays.
 */
export interface Protection {
  /** What is left of the commands, permille, 0 to 1000, not rounded. */
  left: number;
  /** Its guards, each with the fault present now. */
  cells: SupplyGuard;
  motors: MotorGuard;
  /**
   * @param goal command of each motor, permille; lowered in place
   * @param last command of each motor in the last tick, permille
   * @param batteryMv supply voltage, mV, or MISSING
   * @param currentMa current of each motor, mA, or MISSING
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   * @returns bits of Flag: what lowers the drive
   */
  run(
    goal: number[],
    last: number[],
    batteryMv: number,
    currentMa: number[],
    rise: number,
    stop: number,
  ): number;
}

/** @param vehicle constants of the vehicle */
export function createProtection(vehicle: number[]): Protection {
  const count = vehicle[V.MOTORS];
  const blindCap = vehicle[V.BLIND_CAP];
  const watched = vehicle[V.HAS_CURRENT] === 1;
  const cells = createSupplyGuard(vehicle);
  const motors = createMotorGuard(vehicle);
  const protection = { left: 1000, cells: cells, motors: motors, run: run };

  function run(
    goal: number[],
    last: number[],
    batteryMv: number,
    currentMa: number[],
    rise: number,
    stop: number,
  ): number {
    cells.run(batteryMv, rise, stop);
    let limit = watched ? motors.run(currentMa, last, goal, cells.voltage, stop) : 1000;
    if (limit > cells.left) limit = cells.left;
    let flags = motors.flags;
    if (cells.derating < 1000) flags += Flag.SUPPLY_LIMIT;
    if (cells.lost === 1 || motors.lost === 1) {
      flags += Flag.SENSOR_LOST;
      limit = blinded(goal, limit);
    }
    if (limit < 1000) {
      for (let i = 0; i < count; i++) goal[i] = (goal[i] * limit) / 1000;
    }
    protection.left = limit;
    return flags;
  }

  /** The limit that keeps every motor under the blind cap, if it is lower. */
  function blinded(goal: number[], limit: number): number {
    const most = greatest(goal, count);
    return most * limit > blindCap * 1000 ? (blindCap * 1000) / most : limit;
  }

  return protection;
}
