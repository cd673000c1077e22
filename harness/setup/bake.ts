import { type Constants, S, V } from '../../lib/constants.ts';
import { constantsCrc } from '../../lib/crc32.ts';
import { SETUP_LIMITS, VEHICLE_LIMITS } from '../../lib/limits.ts';
import { type Problem, UserError } from '../problems.ts';
import { type Row, toWords } from './baked-row.ts';
import { checkPair } from './check-pair.ts';
import type { LoadedSetup, LoadedVehicle } from './records.ts';
import { setupRows } from './setup-rows.ts';
import { vehicleRows } from './vehicle-rows.ts';

/** As many setups as the core's loader takes. */
const MOST_SETUPS = 16;
/** Greatest value of a table, 1/10000; see lib/limits.ts. */
const MOST_IN_TABLE = 20000;

/**
 * Turns a vehicle and its setups into the integers that the core drives by; lib/constants.ts says
 * what each is. The same input gives the same integers. The first setup is slot 0.
 *
 * @param vehicle as `loadVehicle` gives it
 * @param setups 1 to 16; whether each fits the vehicle is checked here
 * @throws UserError with every setup that does not fit the vehicle and every value that would leave
 *   the limits of lib/limits.ts, by file and field
 */
export function bake(vehicle: LoadedVehicle, setups: readonly LoadedSetup[]): Constants {
  const own = vehicleRows(vehicle);
  const sheets = setups.map((setup) => ({ setup, rows: setupRows(vehicle, setup) }));
  const problems = [
    ...wrongCount(vehicle, setups),
    ...outside(vehicle.file, own, VEHICLE_LIMITS),
    ...sheets.flatMap(({ setup, rows }) => [
      ...checkPair(vehicle, setup),
      ...outside(setup.file, rows, SETUP_LIMITS),
    ]),
  ];
  if (problems.length > 0) throw new UserError(problems);
  const constants: Constants = {
    vehicle: toWords(own, V.COUNT),
    setups: sheets.map(({ rows }) => toWords(rows, S.COUNT)),
    crc: 0,
  };
  return { ...constants, crc: constantsCrc(constants) };
}

function wrongCount(vehicle: LoadedVehicle, setups: readonly LoadedSetup[]): Problem[] {
  if (setups.length >= 1 && setups.length <= MOST_SETUPS) return [];
  const message = `found ${setups.length} setups to take on board, expected 1 to ${MOST_SETUPS}.`;
  return [{ file: vehicle.file, message, cure: 'Choose which setups to take.' }];
}

function outside(file: string, rows: readonly Row[], limits: readonly number[]): Problem[] {
  return rows.flatMap(({ index, field, value }) => {
    const least = limits[2 * index] ?? 0;
    const greatest = limits[2 * index + 1] ?? MOST_IN_TABLE;
    if (value >= least && value <= greatest) return [];
    const message = `gives the core ${value}, expected ${least} to ${greatest}.`;
    const cure = 'Change it, or a field it is reckoned with, until the value fits.';
    return [{ file, field, message, cure }];
  });
}
