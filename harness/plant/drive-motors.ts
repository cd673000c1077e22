import { drainBattery } from './drain-battery.ts';
import type { Frame } from './frame.ts';
import { DRAWN, OPEN_CIRCUIT, SLOW_VOLTAGE, TERMINAL_VOLTAGE } from './state.ts';

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
  const { motorCount, power, description } = frame;
  const { battery, current } = frame.state;
  for (let m = 0; m < motorCount; m++) wire(frame, m, isOff);
  balance(frame);
  for (let pass = 0; pass < motorCount && strikeOut(frame); pass++) balance(frame);
  const voltage = battery[TERMINAL_VOLTAGE]!;
  const { duty, mean, gain, offset, copper, resistance } = power;
  let drawn = 0;
  for (let m = 0; m < motorCount; m += 2) {
    const left = offset[m]! + gain[m]! * duty[m]! * voltage;
    const right = offset[m + 1]! + gain[m + 1]! * duty[m + 1]! * voltage;
    mean[m] = left;
    mean[m + 1] = right;
    drawn += duty[m]! * left + duty[m + 1]! * right;
  }
  for (let m = 0; m < motorCount; m++) {
    const amperes = mean[m]!;
    transmit(frame, m);
    copper[m] = amperes * amperes * resistance[m]!;
    current[m] = amperes;
    if (description.motors[m]!.inductance > 0) carry(frame, m);
  }
  battery[DRAWN] = drawn;
  drainBattery(frame);
}

/** Sets the resistance of a motor to that of its winding's temperature. */
export function warmResistance(frame: Frame, m: number): void {
  const { resistance, heat } = frame.description.motors[m]!;
  const rise = frame.state.winding[m]! - heat.referenceC;
  frame.power.resistance[m] = resistance * (1 + heat.coefficient * rise);
}

/** Duty, and current as offset + gain x duty x voltage in the middle of the step. */
function wire(frame: Frame, m: number, isOff: boolean): void {
  const { power, state, span } = frame;
  const motor = frame.description.motors[m]!;
  const speed = state.speeds[4 + m]! + span[1]! * state.rates[4 + m]!;
  power.speed[m] = speed;
  if (isOff || frame.alive[m] === 0) {
    power.duty[m] = 0;
    power.gain[m] = 0;
    power.offset[m] = 0;
    state.current[m] = 0;
    return;
  }
  power.duty[m] = Math.min(Math.max(frame.command[m]!, -1000), 1000) / 1000;
  warmResistance(frame, m);
  const resistance = power.resistance[m]!;
  if (motor.inductance === 0) {
    const gain = 1 / resistance;
    power.gain[m] = gain;
    power.offset[m] = -motor.constant * speed * gain;
    return;
  }
  const h = span[1]! / motor.inductance;
  const q = 1 + (resistance * h) / 2;
  const g = 1 / (1 + resistance * h * q);
  power.gain[m] = h * q * g;
  power.begin[m] = state.current[m]!;
  power.offset[m] = (state.current[m]! - motor.constant * speed * h * q) * g;
}

/** Terminal voltage; left and right motors are added first, for mirrored commands. */
function balance(frame: Frame): void {
  const { duty, offset, gain } = frame.power;
  const { battery } = frame.state;
  const { resistance } = frame.description.battery;
  const source = battery[OPEN_CIRCUIT]! - battery[SLOW_VOLTAGE]!;
  let fixed = 0;
  let varying = 0;
  for (let m = 0; m < frame.motorCount; m += 2) {
    const left = duty[m]!;
    const right = duty[m + 1]!;
    fixed += left * offset[m]! + right * offset[m + 1]!;
    varying += left * left * gain[m]! + right * right * gain[m + 1]!;
  }
  battery[TERMINAL_VOLTAGE] = (source - resistance * fixed) / (1 + resistance * varying);
}

/** Opens bridges that coast where a current would flow against the command. */
function strikeOut(frame: Frame): boolean {
  const voltage = frame.state.battery[TERMINAL_VOLTAGE]!;
  const { duty, offset, gain } = frame.power;
  let struck = false;
  for (let m = 0; m < frame.motorCount; m++) {
    if (frame.description.motors[m]!.bridge === 'brake') continue;
    const current = offset[m]! + gain[m]! * duty[m]! * voltage;
    if (current * duty[m]! > 0 || (offset[m] === 0 && gain[m] === 0)) continue;
    offset[m] = 0;
    gain[m] = 0;
    frame.state.current[m] = 0;
    struck = true;
  }
  return struck;
}

/** Current of a motor with inductance at the end of the step. */
function carry(frame: Frame, m: number): void {
  const { power, state, span } = frame;
  if (power.gain[m] === 0) return;
  const motor = frame.description.motors[m]!;
  const h = span[0]! / motor.inductance;
  const a = power.resistance[m]! * h;
  const q = 1 + a / 2;
  const voltage = power.duty[m]! * state.battery[TERMINAL_VOLTAGE]!;
  const before = power.begin[m]!;
  state.current[m] = (before + (voltage - motor.constant * power.speed[m]!) * h * q) / (1 + a * q);
}

/**
 * Torque of a motor on its gear, and what the gear passes on: the efficiency while the motor
 * drives, its inverse while the wheel drives the motor; between them within 1 rad/s, so that it
 * does not jump.
 */
function transmit(frame: Frame, m: number): void {
  const { power, torque } = frame;
  const motor = frame.description.motors[m]!;
  const efficiency = motor.gearEfficiency;
  const pull = motor.constant * power.mean[m]!;
  const backwards = pull < 0 ? power.speed[m]! : -power.speed[m]!;
  const share = Math.min(Math.max(backwards, 0), 1);
  const transmission = efficiency + (1 / efficiency - efficiency) * share;
  power.transmission[m] = transmission;
  torque[4 + m] = pull * transmission;
}
