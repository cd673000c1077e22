import { Cause } from './codes.ts';

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
   * @param mv supply voltage, mV
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

/** @param _vehicle constants of the vehicle */
export function createTraction(_vehicle: number[]): Traction {
  return { speed: 0, found: 0, confidence: 0, fault: Cause.NONE, run: run, load: load };
}

function run(): number {
  return 0;
}

function load(): void {}
