import { type Constants, constantsCrc, Layout, S, V } from '../../lib/index.ts';

/**
 * The constants of the mirrored vehicle: with them, and the same pulses, a core must command the
 * mirrored outputs.
 */
export function mirrorConstants(constants: Constants): Constants {
  const vehicle = [...constants.vehicle];
  vehicle[V.STEER_REVERSED] = 1 - vehicle[V.STEER_REVERSED]!;
  const mirrored = { vehicle, setups: constants.setups.map(mirrorSetup), crc: 0 };
  mirrored.crc = constantsCrc(mirrored);
  return mirrored;
}

/** A setup's constants for the mirrored vehicle. */
export function mirrorSetup(setup: readonly number[]): number[] {
  const mirrored = [...setup];
  mirrored[S.LEFT_LIMIT] = setup[S.RIGHT_LIMIT]!;
  mirrored[S.RIGHT_LIMIT] = setup[S.LEFT_LIMIT]!;
  const loss = setup[S.LOSS_STEER]!;
  // Beyond full lock it is no position: the steering is left where it was.
  mirrored[S.LOSS_STEER] = loss > 1000 || loss === 0 ? loss : -loss;
  return mirrored;
}

/** CRC-32 over one setup's constants, as `offerSetup` wants it. */
export function setupCrc(setup: readonly number[]): number {
  return constantsCrc({ vehicle: [], setups: [[...setup]], crc: 0 });
}

/** Findings of the mirrored vehicle: the motors of a pair change places. */
export function mirrorFound(found: number, layout: number): number {
  if (layout === Layout.SINGLE) return found;
  const pairs = found & 0xfff;
  const left = pairs & 0x555;
  const right = pairs & 0xaaa;
  return (found & ~0xfff) | (left << 1) | (right >> 1);
}

/** Index of the motor on the other side. */
export function mirrorMotor(i: number, layout: number): number {
  if (layout === Layout.SINGLE) return i;
  return i % 2 === 0 ? i + 1 : i - 1;
}
