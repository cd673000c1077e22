import type { SetupInput, SurfaceInput, VehicleInput } from './types.ts';

/**
 * Describes a vehicle; the default export of a garage's `vehicle.ts`. Gives back what it gets: it
 * only lets an editor check and explain each field. The values are checked when the file is loaded.
 */
export function defineVehicle(vehicle: VehicleInput): VehicleInput {
  return vehicle;
}

/** Describes a floor; `surfaces.ts` exports a list of these by default. */
export function defineSurface(surface: SurfaceInput): SurfaceInput {
  return surface;
}

/** Describes a setup sheet; the default export of a file in a garage's `setups/`. */
export function defineSetup(setup: SetupInput): SetupInput {
  return setup;
}
