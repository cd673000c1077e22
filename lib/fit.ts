import type { Constants } from './constants.ts';
import { constantsCrc } from './crc32.ts';

/**
 * What the code is fitted for. In the source: everything. For a bundle that is to carry no more
 * than one vehicle can use, targets/build puts other numbers in place of these; a bundle refuses
 * constants it is not fitted for.
 */
export const enum Fit {
  /** 1 = one vehicle alone, that whose constants have the CRC-32 `VEHICLE_CRC`, signed 32-bit. */
  ONE_VEHICLE = 0,
  VEHICLE_CRC = 0,
  /** 1 = one set of constants alone, that with the `crc` `CONSTANTS_CRC`. */
  ONE_SET = 0,
  CONSTANTS_CRC = 0,
  /** 0 = a single setup that stays: there is no slot to change to, and none is put in. */
  SETUPS_CHANGE = 1,
  /**
   * 1 = bytes count more than time: nothing is kept, and no condition asked, that only saves work.
   * Where the condition does not hold, what it guards changes nothing, to the last bit.
   */
  BYTES_COUNT = 0,
}

/** Whether the code is fitted for these constants; throws if they are no constants at all. */
export function isFitted(constants: Constants): boolean {
  if (Fit.ONE_SET) return constants.crc === Fit.CONSTANTS_CRC;
  if (!Fit.ONE_VEHICLE) return true;
  return isFittedVehicle(constantsCrc({ vehicle: constants.vehicle, setups: [], crc: 0 }));
}

/** Whether the code is fitted for the vehicle whose constants have this CRC-32, signed 32-bit. */
export function isFittedVehicle(crc: number): boolean {
  return !Fit.ONE_VEHICLE || crc === Fit.VEHICLE_CRC;
}
