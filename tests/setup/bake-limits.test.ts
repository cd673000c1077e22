import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { constantsHash } from '../../harness/setup/constants-hash.ts';
import { S, TABLE_POINTS, V } from '../../lib/constants.ts';
import { createCrcTable } from '../../lib/crc32.ts';
import { SETUP_LIMITS, VEHICLE_LIMITS } from '../../lib/limits.ts';
import { checkConstants } from '../../lib/loader.ts';
import { arbitrarySetup, arbitraryVehicle } from './arbitrary.ts';
import { setupOf, vehicleOf } from './samples.ts';

const crcTable = createCrcTable();

/** A vehicle and up to three setups, each passed through its check. */
const garages = arbitraryVehicle().chain((vehicle) =>
  fc.record({
    vehicle: fc.constant(vehicle),
    setups: fc.array(arbitrarySetup(vehicle), { minLength: 1, maxLength: 3 }),
  }),
);

function expectWithin(words: number[], limits: number[]): void {
  const outside = words.filter((word, i) => {
    const [least = 0, greatest = 20_000] = limits.slice(2 * i, 2 * i + 2);
    const good = Number.isInteger(word) && word >= least && word <= greatest;
    return !good || Object.is(word, -0);
  });
  expect(outside).toEqual([]);
}

test('what passes the check bakes into integers inside lib/limits.ts that the core takes', () => {
  let hot = 0;
  fc.assert(
    fc.property(garages, ({ vehicle, setups }) => {
      const sheets = setups.map(setupOf);
      const constants = bake(vehicleOf(vehicle), sheets);
      expect(constants.vehicle).toHaveLength(V.COUNT);
      expectWithin(constants.vehicle, VEHICLE_LIMITS);
      for (const words of constants.setups) {
        expect(words).toHaveLength(S.COUNT);
        expectWithin(words, SETUP_LIMITS);
      }
      expect(checkConstants(crcTable, constants)).toBe(true);
      expect(constantsHash(bake(vehicleOf(vehicle), sheets))).toBe(constantsHash(constants));
      if ((constants.vehicle[V.WINDING_MJ_K] ?? 0) > 0) hot += 1;
    }),
    { seed: 20261125, numRuns: 400 },
  );
  // The bent vehicles still cover heat models, not only motors without one.
  expect(hot).toBeGreaterThan(100);
});

test('the baked cut starts at 0, never falls and never passes its ceiling', () => {
  fc.assert(
    fc.property(garages, ({ vehicle, setups }) => {
      const constants = bake(vehicleOf(vehicle), setups.map(setupOf));
      for (const words of constants.setups) {
        const cuts = words.slice(S.CUT_TABLE, S.CUT_TABLE + TABLE_POINTS);
        expect(cuts[0]).toBe(0);
        expect(cuts.filter((cut, i) => cut < (cuts[i - 1] ?? 0))).toEqual([]);
        // The ceiling is held in permille, the table in 1/10000: half a permille of rounding.
        expect(Math.max(...cuts)).toBeLessThanOrEqual((words[S.CUT_CEILING] ?? 0) * 10 + 5);
      }
    }),
    { seed: 20261125, numRuns: 200 },
  );
});
