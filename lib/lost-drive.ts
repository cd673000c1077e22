import { Found, Layout } from './codes.ts';
import { V } from './constants.ts';
import { createLoadShift, KEPT, type LoadShift } from './load-shift.ts';

/**
 * Says how surely what a motor drives is no longer on its shaft: it draws little, and either its
 * load has gone over to another motor, see LoadShift, or it runs ahead of the slowest wheel.
 */
export interface LostDrive {
  /** Once a tick, before the motors; see LoadShift. */
  begin: LoadShift['run'];
  /**
   * @param i current in the direction of the command, mA
   * @param greatest current of any motor, mA
   * @param ahead what it runs ahead by, in standard deviations
   * @param tells whether running ahead tells anything
   * @param lost bits of Found for drives that are lost
   * @returns in standard deviations
   */
  run(m: number, i: number, greatest: number, ahead: number, tells: boolean, lost: number): number;
}

/** Most that a single sample may tell, in standard deviations. */
export const MOST = 4;
/** Current without load at most: over that of the description, and over the greatest current. */
const IDLE = 5 / 4;
const SHARE = 1 / 4;
/** Current at least below the greatest, in errors of a sample. */
const LIGHTER = 1;

/** @param vehicle constants of the vehicle */
export function createLostDrive(vehicle: number[]): LostDrive {
  const count = vehicle[V.MOTORS];
  const error = vehicle[V.CURRENT_ERROR_MA];
  const idle = vehicle[V.NO_LOAD_MA] * IDLE + error;
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const shift = createLoadShift(vehicle);
  const gone = shift.gone;

  function run(
    m: number,
    i: number,
    greatest: number,
    ahead: number,
    tells: boolean,
    lost: number,
  ): number {
    // Beside one that is lost the other bears all, and seems lost once it bears less.
    if ((lost & (Found.FREE << (m ^ 1))) !== 0) return 0;
    const light = (idle + greatest * SHARE - i) / error;
    if (gone[m] > 0 && light > 0) return MOST;
    if (tracked && gone[m] === KEPT) return 0 - MOST;
    if (!tells) return 0;
    // Where all roll lightly, as downhill, none is lost.
    const lighter = count > 1 ? (greatest - i) / error - LIGHTER : MOST;
    const least = light < lighter ? light : lighter;
    const z = ahead < least ? ahead : least;
    return z < MOST ? z : MOST;
  }

  return { begin: shift.run, run: run };
}
