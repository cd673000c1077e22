import type { Problem } from '../problems.ts';
import type { Garage } from './load-garage.ts';
import type { LoadedSetup } from './records.ts';
import { smallValues } from './small-values.ts';
import { vehicleNotes } from './vehicle-notes.ts';

/** What is allowed in these setups, but hardly meant; with its cure. */
export function setupNotes(garage: Garage, setups: readonly LoadedSetup[]): Problem[] {
  return [
    ...smallValues(garage.vehicle.file, garage.vehicle),
    ...vehicleNotes(garage.vehicle),
    ...setups.flatMap((setup) => [
      ...smallValues(setup.file, setup),
      ...slipperyGrip(garage, setup),
    ]),
  ];
}

function slipperyGrip({ surfaces }: Garage, { file, surface, yawAssist }: LoadedSetup): Problem[] {
  const floor = surfaces.find(({ name }) => name === surface);
  const { authorityPercent, gripG } = yawAssist;
  if (floor === undefined || authorityPercent === 0 || gripG <= floor.frictionLow) return [];
  return [
    {
      file,
      field: 'yawAssist.gripG',
      message:
        `found ${gripG}, more than "${surface}" bears where it is slippery, ` +
        `frictionLow ${floor.frictionLow}: there the tail is round before the gyro objects.`,
      cure: `Set it to ${floor.frictionLow}.`,
    },
  ];
}
