import { checkDescription } from '../plant/check-description.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import { UserError } from '../problems.ts';

/**
 * Refuses a vehicle that cannot be simulated, in the words of its own file.
 *
 * @param file the vehicle's, as the user named it
 * @throws UserError with the fields of vehicle.ts that are to blame
 */
export function checkVehicle(file: string, plant: PlantDescription): void {
  try {
    checkDescription(plant);
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    throw new UserError(
      error.problems.map(({ field, ...problem }) => ({
        ...problem,
        file,
        ...(field !== undefined && { field: inFile(field) }),
      })),
    );
  }
}

/** Where a constant of the plant comes from, by the beginning of its path. */
const ORIGINS: readonly [RegExp, string][] = [
  [/^steering\.lock/, 'steeringLockDeg'],
  [/^steering\.rate/, 'plant.steeringRateDegPerS'],
  [/^wheelInertia/, 'plant.wheelInertiaGCm2'],
  [/^wheelRadius/, 'wheelRadiusMm'],
  [/^motors\[\d\]\.inertia/, 'plant.motor.rotorInertiaGCm2'],
  [/^motors/, 'motor'],
  [/^driveline/, 'layout'],
  [/^battery/, 'battery'],
  [/^body\.mass/, 'massKg'],
  [/^body\.yawInertia/, 'yawInertiaKgM2'],
  [/^body\.cgTo/, 'cgToFrontAxleMm'],
  [/^body\.track/, 'trackMm'],
  [/^body\.cgHeight/, 'cgHeightMm'],
  [/^ground/, 'the surface'],
];

function inFile(field: string): string {
  return ORIGINS.find(([pattern]) => pattern.test(field))?.[1] ?? field;
}
