import type { PlantDescription } from '../plant/plant-description.ts';
import { type State, VX, YAW_RATE } from '../plant/state.ts';

/** The wheels that the motors of a plant turn directly; they are never steered. */
export interface DrivenWheels {
  /** Indices of the wheels of each motor. */
  of: readonly (readonly number[])[];
  /** Speed of a wheel's rim, m/s, forward positive. */
  roll(wheel: number, state: State): number;
  /** Speed of the vehicle where the wheel stands, along the vehicle, m/s, forward positive. */
  along(wheel: number, state: State): number;
}

export function drivenWheels(plant: PlantDescription): DrivenWheels {
  const half = plant.body.trackRear / 2;
  return {
    of: plant.driveline.motors.map((row) => [0, 1, 2, 3].filter((w) => row[w] !== 0)),
    roll: (w, { speeds }) => plant.wheelRadius[w]! * speeds[w]!,
    along: (w, { body }) => body[VX]! - body[YAW_RATE]! * (w % 2 === 0 ? half : -half),
  };
}
