import { crc32Words, createCrcTable } from '../../lib/crc32.ts';
import { S, V } from '../../lib/index.ts';
import { bake } from '../setup/bake.ts';
import type { Garage } from '../setup/load-garage.ts';
import type { LoadedSetup } from '../setup/records.ts';

/** Enough for any choice of so many setups; of more than that only choices of some are tried. */
export const MOST_SETUPS = 8;
const MOST_TRIES = 200_000;

/**
 * The setups of a garage, and their order, whose constants have a given CRC.
 *
 * @param crc `Constants.crc`, signed
 * @returns undefined if none that were tried has it
 */
export function findSetups(garage: Garage, crc: number): LoadedSetup[] | undefined {
  const table = createCrcTable();
  const baked = garage.setups.map((setup) => bake(garage.vehicle, [setup]));
  const words = baked.map((each) => each.setups[0]!);
  const start = crc32Words(table, baked[0]!.vehicle, 0, V.COUNT, 0);
  let tries = 0;

  function search(chosen: number[], before: number, left: number): number[] | undefined {
    if (left === 0) return before === crc ? chosen : undefined;
    for (let i = 0; i < words.length && tries < MOST_TRIES; i++) {
      if (chosen.includes(i)) continue;
      tries++;
      const after = crc32Words(table, words[i]!, 0, S.COUNT, before);
      const found = search([...chosen, i], after, left - 1);
      if (found !== undefined) return found;
    }
    return undefined;
  }

  // As a garage is built unless its setups are named.
  const all = words.reduce((before, each) => crc32Words(table, each, 0, S.COUNT, before), start);
  if (all === crc) return [...garage.setups];
  for (let count = 1; count <= words.length; count++) {
    const found = search([], start, count);
    if (found !== undefined) return found.map((i) => garage.setups[i]!);
  }
  return undefined;
}
