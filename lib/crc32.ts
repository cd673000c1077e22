import type { Constants } from './constants.ts';

/**
 * CRC-32 of IEEE 802.3 (reflected polynomial EDB88320, start and final inversion) over words.
 *
 * @param table from `createCrcTable`
 * @param words 32-bit integers, each taken as four bytes, least significant first
 * @param from index of the first word
 * @param count number of words
 * @param crc result over the words before these; 0 to start
 * @returns the CRC as a signed 32-bit integer
 */
export function crc32Words(
  table: number[],
  words: number[],
  from: number,
  count: number,
  crc: number,
): number {
  let c = ~crc;
  for (let i = from; i < from + count; i++) {
    c ^= words[i];
    c = table[c & 255] ^ (c >>> 8);
    c = table[c & 255] ^ (c >>> 8);
    c = table[c & 255] ^ (c >>> 8);
    c = table[c & 255] ^ (c >>> 8);
  }
  return ~c;
}

/** The 256 remainders that `crc32Words` looks up. */
export function createCrcTable(): number[] {
  const table: number[] = [];
  for (let n = 0; n < 256; n++) {
    let c = n;
    for (let bit = 0; bit < 8; bit++) {
      c = (c & 1) === 0 ? c >>> 1 : (c >>> 1) ^ 0xedb88320;
    }
    table.push(c | 0);
  }
  return table;
}

/**
 * CRC-32 over the vehicle's constants and each setup's, in that order; signed 32-bit. Bit by bit:
 * it runs once, and a table would cost the bare core more than it saves.
 */
export function constantsCrc(constants: Constants): number {
  let crc = crcBits(constants.vehicle, ~0);
  for (let i = 0; i < constants.setups.length; i++) crc = crcBits(constants.setups[i], crc);
  return ~crc;
}

function crcBits(words: number[], before: number): number {
  let c = before;
  for (let i = 0; i < words.length; i++) {
    c ^= words[i];
    for (let bit = 0; bit < 32; bit++) c = (c & 1) === 0 ? c >>> 1 : (c >>> 1) ^ 0xedb88320;
  }
  return c;
}
