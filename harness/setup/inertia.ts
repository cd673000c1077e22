import type { Vehicle } from './records.ts';

/** Mechanical time constant J R / k² of a bare motor, s; 0.01 to 0.04 for small brushed ones. */
const MOTOR_TIME = 0.02;
/** A wheel's moment of inertia over mass of the vehicle times radius squared; 0.015 to 0.04. */
const WHEEL_SHARE = 1 / 40;

/**
 * V over rad/s of the motor shaft: what is left of the voltage at no load, over the speed there.
 */
export function motorConstant({ motor }: Vehicle): number {
  const voltage = motor.nominalVoltageV - (motor.noLoadCurrentMa / 1000) * motor.resistanceOhm;
  return voltage / ((motor.noLoadSpeedRpm * 2 * Math.PI) / 60);
}

/** Moment of inertia of one motor's rotor, kg m²; estimated where the file does not say. */
export function rotorInertia(vehicle: Vehicle): number {
  const { rotorInertiaGCm2: rotor } = vehicle.plant.motor;
  if (rotor > 0) return rotor / 1e7;
  return (MOTOR_TIME * motorConstant(vehicle) ** 2) / vehicle.motor.resistanceOhm;
}

/** Moment of inertia of one wheel, kg m²; estimated where the file does not say. */
export function wheelInertia({ plant, massKg, wheelRadiusMm }: Vehicle): number {
  if (plant.wheelInertiaGCm2 > 0) return plant.wheelInertiaGCm2 / 1e7;
  return WHEEL_SHARE * massKg * (wheelRadiusMm / 1000) ** 2;
}
