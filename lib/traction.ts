import { createBackEmf } from './back-emf.ts';
import { Cause } from './codes.ts';
import { createVehicleSpeed } from './vehicle-speed.ts';
import type { Winding } from './winding.ts';

/** Tells speed and loss of traction from what the motors draw. */
export interface Traction {
  /** Estimated speed over ground, mm/s, forward positive, not rounded. */
  speed: number;
  /** Findings present; see Found. */
  found: number;
  /** How sure the surest of them is, permille. */
  confidence: number;
  /** The fault present now, or Cause.NONE. */
  fault: number;
  /**
   * @param goal command of each motor, permille; lowered in place
   * @param last command of each motor in the last tick, permille
   * @param mv supply voltage under load, mV
   * @param currentMa current of each motor, mA, or MISSING
   * @param wheelDegS speed of each motor's wheel, deg/s, or MISSING
   * @param steer steering command, permille of full lock, left positive
   * @param state of the supervisor; see State
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   * @returns bits of Flag
   */
  run(
    goal: number[],
    last: number[],
    mv: number,
    currentMa: number[],
    wheelDegS: number[],
    steer: number,
    state: number,
    rise: number,
    stop: number,
  ): number;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/**
 * @param vehicle constants of the vehicle
 * @param windings heat of each motor's winding; none without current sensors
 */
export function createTraction(vehicle: number[], windings: Winding[]): Traction {
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const traction = {
    speed: 0,
    found: 0,
    confidence: 0,
    fault: Cause.NONE as number,
    run: run,
    load: load,
  };

  function run(
    _goal: number[],
    last: number[],
    mv: number,
    currentMa: number[],
    wheelDegS: number[],
    steer: number,
    _state: number,
    _rise: number,
    stop: number,
  ): number {
    motors.run(last, mv, currentMa, wheelDegS);
    const flags = ground.run(motors, steer, stop);
    traction.speed = ground.speed;
    return flags;
  }

  return traction;
}

function load(): void {}
