import { V } from '../../lib/index.ts';

/**
 * Speed of a vehicle in grip one tick later, mm/s, in closed form: what the currents push is what
 * it gains, m dv/dt = F - drag, F = T (i - i0) of each motor.
 *
 * @param vehicle constants of one with two motors
 * @param speed mm/s, forward
 * @param currentsMa of the motors that turn; one that is held fast neither pushes nor is turned
 */
export function speedInGrip(
  vehicle: readonly number[],
  speed: number,
  currentsMa: readonly number[],
  tickMs: number,
): number {
  const thrust = vehicle[V.THRUST_MN_A]! / 1000;
  const drag = vehicle[V.DRAG_MN]! + 2 * thrust * vehicle[V.NO_LOAD_MA]!;
  const mass = vehicle[V.MASS_G]! + currentsMa.length * vehicle[V.ROTATING_G]!;
  const pull = thrust * currentsMa.reduce((sum, current) => sum + current, 0);
  return Math.max(0, speed + ((pull - drag) * tickMs) / mass);
}

/** Resistance of a motor as warm as the core takes it to be at power-up, mOhm. */
export function warmOhm(vehicle: readonly number[]): number {
  const rise = (vehicle[V.COPPER_PPM_K]! * vehicle[V.HEAT_START_K]!) / 1e6;
  return vehicle[V.MOTOR_MOHM]! * (1 + rise);
}
