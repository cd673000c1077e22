import type { Trace } from './trace.ts';

/** Slower than this, a vehicle has no direction of travel, m/s. */
const STANDSTILL = 0.1;

/**
 * Sideslip angle of each sample, rad, -pi to pi: direction of travel against that in which the
 * vehicle set off. So a car that reverses has none, and one that has spun round has pi; it can set
 * off anew only from a standstill. 0 at a standstill.
 */
export function findSideslip({ vx, vy, count }: Trace): Float64Array {
  const sideslip = new Float64Array(count);
  let way = 0;
  for (let i = 0; i < count; i++) {
    if (Math.hypot(vx[i]!, vy[i]!) < STANDSTILL) {
      way = 0;
      continue;
    }
    if (way === 0) way = vx[i]! < 0 ? -1 : 1;
    sideslip[i] = Math.atan2(vy[i]!, way * vx[i]!);
  }
  return sideslip;
}
