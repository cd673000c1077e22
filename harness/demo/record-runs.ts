import { join } from 'node:path';
import { packageRoot } from '../../targets/package-root.ts';
import { describePlant } from '../plant/describe-plant.ts';
import { bake } from '../setup/bake.ts';
import { radians } from '../setup/geometry.ts';
import { findSetup, loadGarage } from '../setup/load-garage.ts';
import { describeCar } from '../simulate/describe-car.ts';
import { saveDrive } from '../simulate/save-drive.ts';
import { simulate } from '../simulate/simulate.ts';
import { hallEvening } from './drives/hall-evening.ts';
import { openDay } from './drives/open-day.ts';
import { asManoeuvre, type DemoDrive, switchesAt } from './drives/stick-plan.ts';

/** Drives every run of the demo anew, in the simulated vehicle with the core of today. */
async function recordRuns(): Promise<void> {
  for (const drive of [hallEvening, openDay]) {
    const path = await recordRun(drive);
    process.stdout.write(`recorded ${path}\n`);
  }
}

async function recordRun(drive: DemoDrive): Promise<string> {
  const folder = join(packageRoot(), 'harness/demo/garages', drive.car);
  const garage = await loadGarage(folder);
  const { vehicle } = garage;
  const surface = garage.surfaces.find(({ name }) => name === drive.surface);
  if (surface === undefined) throw new RangeError(`${drive.car} has no ${drive.surface}`);
  const plant = describePlant(vehicle, surface);
  const constants = bake(
    vehicle,
    drive.setups.map((name) => findSetup(garage, name)),
  );
  const { rows } = simulate({
    plant,
    car: describeCar(plant, vehicle.layout, radians(vehicle.steeringLockDeg)),
    constants,
    manoeuvre: asManoeuvre(drive),
    seed: drive.seed,
    switches: (t) => switchesAt(drive, t),
  });
  const path = join(folder, 'runs', `${drive.run}.csv`);
  const saved = {
    rows,
    constants,
    vehicle: vehicle.name,
    setups: drive.setups,
    surface: drive.surface,
    seed: drive.seed,
    origin: 'A drive of the simulated vehicle by scripted sticks, with the core in the loop.',
    notes: drive.notes,
  };
  await saveDrive(path, saved, true);
  return path;
}

await recordRuns();
