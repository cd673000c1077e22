import { type Constants, constantsCrc } from '../../lib/index.ts';

/**
 * The same constants with their setups changed, and the CRC that belongs to them.
 *
 * @param change writes into a copy of each setup
 */
export function changeSetups(constants: Constants, change: (setup: number[]) => void): Constants {
  const setups = constants.setups.map((setup) => {
    const changed = [...setup];
    change(changed);
    return changed;
  });
  const own = { ...constants, setups };
  return { ...own, crc: constantsCrc(own) };
}
