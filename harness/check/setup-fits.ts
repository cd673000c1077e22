import { crc32Words, createCrcTable } from '../../lib/crc32.ts';
import { type Constants, Layout, S, SETUP_LIMITS, STEER_HOLD, V } from '../../lib/index.ts';

/**
 * Whether a setup may be loaded on this vehicle, as limit S14 means it: whole, every constant an
 * integer in its range, and safe together with the vehicle's.
 */
export function setupFits({ vehicle }: Constants, setup: unknown, crc: number): boolean {
  if (!Array.isArray(setup) || setup.length !== S.COUNT) return false;
  const values: unknown[] = setup;
  for (let i = 0; i < S.COUNT; i++) {
    const value = values[i];
    const least = SETUP_LIMITS[2 * i] ?? 0;
    const most = SETUP_LIMITS[2 * i + 1] ?? 20000;
    if (!Number.isInteger(value)) return false;
    if ((value as number) < least || (value as number) > most) return false;
  }
  const k = values as number[];
  const fastestRise = (k[S.RISE]! * 2 * vehicle[V.TICK_MS]!) / 1000;
  const lossSteer = k[S.LOSS_STEER]!;
  return (
    k[S.CUT_TABLE] === 0 &&
    k[S.FALL]! <= k[S.STOP]! &&
    fastestRise <= vehicle[V.GATE_RISE]! &&
    (lossSteer <= 1000 || lossSteer === STEER_HOLD) &&
    (k[S.PIVOT] === 0 || vehicle[V.LAYOUT] === Layout.TRACKED) &&
    crc32Words(createCrcTable(), k, 0, S.COUNT, 0) === crc
  );
}
