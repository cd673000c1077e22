import { AT } from './at.ts';
import { drainBattery } from './drain-battery.ts';
import type { Frame } from './frame.ts';

const {
  ALIVE,
  BEGIN,
  COEFFICIENT,
  COMMAND,
  COPPER,
  CURRENT,
  DRAWN,
  DRIFT,
  DUTY,
  EFFICIENCY,
  EFFICIENCY_SPAN,
  EXPECTED_SPEED,
  GAIN,
  INDUCTANCE,
  MEAN,
  MOTOR_CONSTANT,
  MOTOR_RATE,
  MOTOR_SPEED,
  OFFSET,
  OPEN_CIRCUIT,
  PACK_RESISTANCE,
  REFERENCE_C,
  RESISTANCE,
  SLOW_VOLTAGE,
  SPAN,
  TERMINAL_VOLTAGE,
  TORQUE,
  TRANSMISSION,
  WARM_RESISTANCE,
  WINDING,
} = AT;

/**
 * Currents of motors and battery, and the torques of the motors on their gears.
 *
 * Each motor obeys d V = i R + L di/dt + k w with duty d and terminal voltage V; the battery
 * V = E(charge) - R0 sum(d i) - v1, dv1/dt = (R1 sum(d i) - v1) / tau. V is solved for in closed
 * form; a current against the command of a bridge that coasts is struck out. Formulas: Plett,
 * Battery Management Systems, vol. 1; any textbook of DC machines.
 *
 * @param isOff true while the bridges are open and the motors coast
 */
export function driveMotors(frame: Frame, isOff: boolean): void {
  const { numbers: n, motorCount } = frame;
  for (let m = 0; m < motorCount; m++) wire(frame, m, isOff);
  balance(frame);
  if (frame.coasts)
    for (let pass = 0; pass < motorCount && strikeOut(frame); pass++) balance(frame);
  const voltage = n[TERMINAL_VOLTAGE]!;
  let drawn = 0;
  for (let m = 0; m < motorCount; m += 2) {
    const leftDuty = n[DUTY + m]!;
    const rightDuty = n[DUTY + 1 + m]!;
    const left = n[OFFSET + m]! + n[GAIN + m]! * leftDuty * voltage;
    const right = n[OFFSET + 1 + m]! + n[GAIN + 1 + m]! * rightDuty * voltage;
    n[MEAN + m] = left;
    n[MEAN + 1 + m] = right;
    drawn += leftDuty * left + rightDuty * right;
  }
  for (let m = 0; m < motorCount; m++) {
    const amperes = n[MEAN + m]!;
    transmit(frame, m);
    n[COPPER + m] = amperes * amperes * n[WARM_RESISTANCE + m]!;
    n[CURRENT + m] = amperes;
    if (n[INDUCTANCE + m]! > 0) carry(frame, m);
  }
  n[DRAWN] = drawn;
  drainBattery(frame);
}

/** Sets the resistance of a motor to that of its winding's temperature. */
export function warmResistance({ numbers: n }: Frame, m: number): void {
  const rise = n[WINDING + m]! - n[REFERENCE_C + m]!;
  n[WARM_RESISTANCE + m] = n[RESISTANCE + m]! * (1 + n[COEFFICIENT + m]! * rise);
}

/** Duty, and current as offset + gain x duty x voltage in the middle of the step. */
function wire(frame: Frame, m: number, isOff: boolean): void {
  const n = frame.numbers;
  const speed = n[MOTOR_SPEED + m]! + n[DRIFT]! * n[MOTOR_RATE + m]!;
  n[EXPECTED_SPEED + m] = speed;
  if (isOff || n[ALIVE + m] === 0) {
    n[DUTY + m] = 0;
    n[GAIN + m] = 0;
    n[OFFSET + m] = 0;
    n[CURRENT + m] = 0;
    return;
  }
  n[DUTY + m] = Math.min(Math.max(n[COMMAND + m]!, -1000), 1000) / 1000;
  warmResistance(frame, m);
  const resistance = n[WARM_RESISTANCE + m]!;
  const inductance = n[INDUCTANCE + m]!;
  if (inductance === 0) {
    const gain = 1 / resistance;
    n[GAIN + m] = gain;
    n[OFFSET + m] = -n[MOTOR_CONSTANT + m]! * speed * gain;
    return;
  }
  const current = n[CURRENT + m]!;
  const h = n[DRIFT]! / inductance;
  const q = 1 + (resistance * h) / 2;
  const g = 1 / (1 + resistance * h * q);
  n[GAIN + m] = h * q * g;
  n[BEGIN + m] = current;
  n[OFFSET + m] = (current - n[MOTOR_CONSTANT + m]! * speed * h * q) * g;
}

/** Terminal voltage; left and right motors are added first, for mirrored commands. */
function balance({ numbers: n, motorCount }: Frame): void {
  const resistance = n[PACK_RESISTANCE]!;
  const source = n[OPEN_CIRCUIT]! - n[SLOW_VOLTAGE]!;
  let fixed = 0;
  let varying = 0;
  for (let m = 0; m < motorCount; m += 2) {
    const left = n[DUTY + m]!;
    const right = n[DUTY + 1 + m]!;
    fixed += left * n[OFFSET + m]! + right * n[OFFSET + 1 + m]!;
    varying += left * left * n[GAIN + m]! + right * right * n[GAIN + 1 + m]!;
  }
  n[TERMINAL_VOLTAGE] = (source - resistance * fixed) / (1 + resistance * varying);
}

/** Opens bridges that coast where a current would flow against the command. */
function strikeOut({ numbers: n, motorCount, description }: Frame): boolean {
  const voltage = n[TERMINAL_VOLTAGE]!;
  let struck = false;
  for (let m = 0; m < motorCount; m++) {
    if (description.motors[m]!.bridge === 'brake') continue;
    const duty = n[DUTY + m]!;
    const offset = n[OFFSET + m]!;
    const gain = n[GAIN + m]!;
    const current = offset + gain * duty * voltage;
    if (current * duty > 0 || (offset === 0 && gain === 0)) continue;
    n[OFFSET + m] = 0;
    n[GAIN + m] = 0;
    n[CURRENT + m] = 0;
    struck = true;
  }
  return struck;
}

/** Current of a motor with inductance at the end of the step. */
function carry({ numbers: n }: Frame, m: number): void {
  if (n[GAIN + m] === 0) return;
  const h = n[SPAN]! / n[INDUCTANCE + m]!;
  const a = n[WARM_RESISTANCE + m]! * h;
  const q = 1 + a / 2;
  const voltage = n[DUTY + m]! * n[TERMINAL_VOLTAGE]!;
  const induced = n[MOTOR_CONSTANT + m]! * n[EXPECTED_SPEED + m]!;
  n[CURRENT + m] = (n[BEGIN + m]! + (voltage - induced) * h * q) / (1 + a * q);
}

/**
 * Torque of a motor on its gear, and what the gear passes on: the efficiency while the motor
 * drives, its inverse while the wheel drives the motor; between them within 1 rad/s, so that it
 * does not jump.
 */
function transmit({ numbers: n }: Frame, m: number): void {
  const pull = n[MOTOR_CONSTANT + m]! * n[MEAN + m]!;
  const speed = n[EXPECTED_SPEED + m]!;
  const backwards = pull < 0 ? speed : -speed;
  const share = Math.min(Math.max(backwards, 0), 1);
  const transmission = n[EFFICIENCY + m]! + n[EFFICIENCY_SPAN + m]! * share;
  n[TRANSMISSION + m] = transmission;
  n[TORQUE + 4 + m] = pull * transmission;
}
