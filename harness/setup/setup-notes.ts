import type { Problem } from '../problems.ts';
import type { Garage } from './load-garage.ts';
import type { LoadedSetup } from './records.ts';

/** What is allowed in these setups, but hardly meant; with its cure. */
export function setupNotes(garage: Garage, setups: readonly LoadedSetup[]): Problem[] {
  return [
    ...smallShares(garage.vehicle.file, garage.vehicle),
    ...setups.flatMap((setup) => [
      ...smallShares(setup.file, setup),
      ...slipperyGrip(garage, setup),
    ]),
  ];
}

/** Percentages that look as if they were meant as fractions. */
function smallShares(file: string, record: object, path = ''): Problem[] {
  return Object.entries(record).flatMap(([name, value]) => {
    const field = `${path}${name}`;
    if (typeof value === 'object' && value !== null) return smallShares(file, value, `${field}.`);
    if (typeof value !== 'number' || !name.endsWith('Percent')) return [];
    if (value <= 0 || value >= 1) return [];
    const message = `found ${value}, less than one percent.`;
    const meant = Number((value * 100).toPrecision(6));
    const cure = `If a share of the whole was meant, write ${meant}.`;
    return [{ file, field, message, cure }];
  });
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
