import { createHash } from 'node:crypto';
import type { Constants } from '../../lib/constants.ts';

/**
 * Name of a set of constants: the first 16 hexadecimal digits of SHA-256 over the vehicle's
 * constants and each setup's, as 32-bit integers, least significant byte first.
 */
export function constantsHash(constants: Constants): string {
  return createHash('sha256').update(constantsBytes(constants)).digest('hex').slice(0, 16);
}

/** The bytes that the hash, and the CRC of the core's loader, are taken over. */
export function constantsBytes({ vehicle, setups }: Constants): Buffer {
  const words = [...vehicle, ...setups.flat()];
  const bytes = Buffer.alloc(words.length * 4);
  words.forEach((word, i) => {
    bytes.writeInt32LE(word, i * 4);
  });
  return bytes;
}
