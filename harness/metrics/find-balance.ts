import { FREE_FALL } from '../manoeuvres/sizes.ts';
import type { Drive } from './drive.ts';

/** Share of the grip above which a car is in a bend. */
const BEND = 0.1;

/**
 * Mean of the balance, rad, over those samples of the steady part, or else from the action on, in
 * which lateral acceleration uses at least a tenth of the grip.
 *
 * @returns undefined if there are none
 */
export function findBalance({ trace, car, steady, after }: Drive): number | undefined {
  const { from, to } = steady ?? after;
  const least = BEND * car.friction * FREE_FALL;
  let sum = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    if (!(Math.abs(trace.ay[i]!) >= least)) continue;
    sum += trace.balance[i]!;
    count++;
  }
  return count === 0 ? undefined : sum / count;
}
