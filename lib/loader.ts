import { Flag, Layout } from './codes.ts';
import { type Constants, FORMAT, S, STEER_HOLD, TABLE_POINTS, V } from './constants.ts';
import { createTrusted, refuse } from './controller.ts';
import { crc32Words, createCrcTable } from './crc32.ts';
import { Fit, isFittedVehicle } from './fit.ts';
import { SETUP_LIMITS, VEHICLE_LIMITS } from './limits.ts';
import { HEAT_STEP_MS } from './motor-guard.ts';
import type { Inputs, Outputs } from './signals.ts';

/** A core that trusts no constants unchecked, and takes new setups. */
export interface Controller {
  /** As `Core.step`. */
  step(inputs: Inputs, outputs: Outputs): void;
  /**
   * Offers a setup to a slot on board. It is loaded only if it is whole and may be driven with on
   * this vehicle; if its slot is in force, the core fades to it.
   *
   * @param slot from 0
   * @param setup S.COUNT integers; copied
   * @param crc CRC-32 over them, signed 32-bit
   * @returns 1 if it was loaded, 0 if it was refused and nothing changed
   */
  offerSetup(slot: number, setup: number[], crc: number): number;
}

/**
 * Builds a controller. With constants that fail the check it stays in State.FAULT with
 * Cause.BAD_CONSTANTS and neutral outputs for good.
 *
 * @param constants baked on the laptop; copied where they can change
 */
export function createController(constants: Constants): Controller {
  const table = createCrcTable();
  if (!checkConstants(table, constants)) return { step: refuse, offerSetup: refuseSetup };
  const core = createTrusted(constants);
  const slots = constants.setups.length;

  function offerSetup(slot: number, setup: number[], crc: number): number {
    const fits =
      isWhole(slot) &&
      slot >= 0 &&
      slot < slots &&
      checkSetup(constants.vehicle, setup) &&
      crc32Words(table, setup, 0, S.COUNT, 0) === crc;
    core.notice = fits ? 0 : Flag.SETUP_REFUSED;
    if (fits) core.put(slot, setup);
    return fits ? 1 : 0;
  }

  return { step: core.step, offerSetup: offerSetup };
}

function refuseSetup(): number {
  return 0;
}

/**
 * Whether constants may be driven with: CRC, format, every value an integer inside its limits, and
 * the relations between them. Never throws, whatever it is given.
 *
 * @param table from `createCrcTable`
 */
export function checkConstants(table: number[], constants: Constants): boolean {
  if (!constants || !isList(constants.vehicle) || !isList(constants.setups)) return false;
  const vehicle = constants.vehicle;
  const setups = constants.setups;
  if (!checkVehicle(vehicle)) return false;
  let crc = crc32Words(table, vehicle, 0, V.COUNT, 0);
  if (!isFittedVehicle(crc) || setups.length < 1 || setups.length > 16) return false;
  for (let i = 0; i < setups.length; i++) {
    if (!checkSetup(vehicle, setups[i])) return false;
    crc = crc32Words(table, setups[i], 0, S.COUNT, crc);
  }
  return crc === constants.crc;
}

/** Whether these are constants of a vehicle. Of one alone the CRC tells it: it has been checked. */
function checkVehicle(vehicle: number[]): boolean {
  if (Fit.ONE_VEHICLE) return areWhole(vehicle, V.COUNT);
  return inLimits(vehicle, VEHICLE_LIMITS, V.COUNT) && vehicleAgrees(vehicle);
}

/** Whether a setup may be driven with on this vehicle; never throws. */
function checkSetup(vehicle: number[], setup: number[]): boolean {
  return (
    isList(setup) &&
    inLimits(setup, SETUP_LIMITS, S.COUNT) &&
    // Straight on both sides are equal, whatever the rest of the table says.
    setup[S.CUT_TABLE] === 0 &&
    setup[S.FALL] <= setup[S.STOP] &&
    (setup[S.LOSS_STEER] <= 1000 || setup[S.LOSS_STEER] === STEER_HOLD) &&
    // Else the gate would hold back what the slew stage lets pass.
    setup[S.RISE] * 2 * vehicle[V.TICK_MS] <= vehicle[V.GATE_RISE] * 1000 &&
    (setup[S.PIVOT] === 0 || vehicle[V.LAYOUT] === Layout.TRACKED)
  );
}

function vehicleAgrees(k: number[]): boolean {
  const motors = k[V.LAYOUT] === Layout.SINGLE ? 1 : k[V.LAYOUT] === Layout.TWO_PAIRS ? 4 : 2;
  const longest = HEAT_STEP_MS + k[V.GAP_MS];
  return (
    k[V.FORMAT] === FORMAT &&
    k[V.MOTORS] === motors &&
    k[V.GAP_MS] > k[V.TICK_MS] &&
    k[V.THROTTLE_LOW_US] + 100 <= k[V.THROTTLE_CENTRE_US] &&
    k[V.THROTTLE_CENTRE_US] + 100 <= k[V.THROTTLE_HIGH_US] &&
    k[V.STEER_LOW_US] + 100 <= k[V.STEER_CENTRE_US] &&
    k[V.STEER_CENTRE_US] + 100 <= k[V.STEER_HIGH_US] &&
    // Straight on both sides are equal, whatever the rest of the tables says.
    k[V.FRONT_INSIDE] === k[V.FRONT_OUTSIDE] &&
    k[V.SUPPLY_CUT_MV] <= k[V.SUPPLY_LOW_MV] &&
    k[V.SUPPLY_LOW_MV] <= k[V.SUPPLY_WARN_MV] &&
    k[V.HEAT_WARN_K] < k[V.HEAT_LIMIT_K] &&
    k[V.HEAT_START_K] < k[V.HEAT_WARN_K] &&
    // The longest step of the heat model must stay shorter than its time constants.
    (k[V.WINDING_MJ_K] === 0 || k[V.WINDING_MW_K] * longest < k[V.WINDING_MJ_K] * 1000) &&
    (k[V.HOUSING_MJ_K] === 0 ||
      (k[V.WINDING_MW_K] + k[V.HOUSING_MW_K]) * longest < k[V.HOUSING_MJ_K] * 1000)
  );
}

/** Whether all are integers inside their limits; past the limits' end follow tables, 0 to 20000. */
function inLimits(values: number[], limits: number[], count: number): boolean {
  if (!areWhole(values, count)) return false;
  for (let i = 0; i < count; i++) {
    const value = values[i];
    const tabled = 2 * i >= limits.length;
    if (value < (tabled ? 0 : limits[2 * i]) || value > (tabled ? 20000 : limits[2 * i + 1])) {
      return false;
    }
  }
  return count - limits.length / 2 >= TABLE_POINTS;
}

function areWhole(values: number[], count: number): boolean {
  for (let i = 0; i < count; i++) if (!isWhole(values[i])) return false;
  return values.length === count;
}

function isList(value: unknown): boolean {
  return typeof value === 'object' && value !== null && (value as number[]).length > 0;
}

function isWhole(value: unknown): boolean {
  return typeof value === 'number' && value === (value | 0);
}
