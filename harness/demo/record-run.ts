import { join } from 'node:path';
import { packageRoot } from '../../targets/package-root.ts';
import { describePlant } from '../plant/describe-plant.ts';
import { bake } from '../setup/bake.ts';
import { radians } from '../setup/geometry.ts';
import { findSetup, loadGarage } from '../setup/load-garage.ts';
import { describeCar } from '../simulate/describe-car.ts';
import { saveDrive } from '../simulate/save-drive.ts';
import { simulate } from '../simulate/simulate.ts';
import { asManoeuvre, type DemoDrive, switchesAt } from './drives/stick-plan.ts';

/** Where the demo keeps a drive's run. */
export function demoRunPath({ car, run }: DemoDrive): string {
  return join(garageOf(car), 'runs', `${run}.csv`);
}

/**
 * Drives a run of the demo in the simulated vehicle with the core of today, and writes it.
 *
 * @param path where to; what is there is replaced
 */
export async function recordRun(drive: DemoDrive, path: string): Promise<void> {
  const garage = await loadGarage(garageOf(drive.car));
  const { vehicle } = garage;
  const surface = garage.surfaces.find(({ name }) => name === drive.surface);
  if (surface === undefined) throw new RangeError(`${drive.car} has no ${drive.surface}`);
  const plant = describePlant(vehicle, surface);
  const constants = bake(
    vehicle,
    drive.setups.map((name) => findSetup(garage, name)),
  );
  const { rows, leadInS } = simulate({
    plant,
    car: describeCar(plant, vehicle.layout, radians(vehicle.steeringLockDeg)),
    constants,
    manoeuvre: asManoeuvre(drive),
    seed: drive.seed,
    switches: (t) => switchesAt(drive, t),
  });
  const saved = {
    rows,
    constants,
    vehicle: vehicle.name,
    setups: drive.setups,
    surface: drive.surface,
    seed: drive.seed,
    origin:
      'A drive of the simulated vehicle by scripted sticks, with the core in the loop; it begins ' +
      `${leadInS.toFixed(2)} s after power-up.`,
    notes: drive.notes,
  };
  await saveDrive(path, saved, true);
}

function garageOf(car: string): string {
  return join(packageRoot(), 'harness/demo/garages', car);
}
