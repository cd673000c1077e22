import { motorConstant } from './inertia.ts';
import type { Vehicle } from './records.ts';

/**
 * Back-EMF of a motor over the speed of its tyre, V s/m; 0 = so far from any model that could drive
 * that the core takes the motor's speed for unknown.
 */
export function tyreConstant(vehicle: Vehicle): number {
  const { motor, wheelRadiusMm } = vehicle;
  const told = motorConstant(vehicle) * motor.gearRatio * (1000 / wheelRadiusMm);
  return told > 0.1 && told < MOST_TYRE_CONSTANT ? told : 0;
}

/** As much as a 16-bit constant in mV s/m can say, V s/m. */
export const MOST_TYRE_CONSTANT = 32;
