import { readFile } from 'node:fs/promises';
import type { Plugin } from 'esbuild';
import { type Constants, constantsCrc, V } from '../../lib/index.ts';
import type { Known } from '../specialise/put-known.ts';
import { type Shape, type ShapeName, shapeFor } from './shape.ts';

/**
 * What a bundle is fitted for: `any` constants; any setups of one `vehicle`; or the given
 * `constants` alone. The less, the smaller and quicker; the bits are the same.
 */
export type FitName = 'any' | 'vehicle' | 'constants';

/** What the build knows by the fit. */
export interface Fitting {
  /** Values of the enum `Fit` of lib/fit.ts. */
  values: Readonly<Record<string, number>>;
  /** Numbers for `specialise`. */
  known: Known;
  /** What speed may cost. */
  shape: Shape;
}

/** @returns undefined = nothing is known, and the code stays as it is */
export function fittingFor(
  fit: FitName,
  constants: Constants,
  name: ShapeName,
): Fitting | undefined {
  if (fit === 'any') return undefined;
  const { vehicle, setups, crc } = constants;
  const [only, another] = setups;
  const vehicleCrc = constantsCrc({ vehicle, setups: [], crc: 0 });
  const bytesCount = name === 'smallest' ? 1 : 0;
  const values = { ONE_VEHICLE: 1, VEHICLE_CRC: vehicleCrc, BYTES_COUNT: bytesCount };
  const shape = shapeFor(name, undefined);
  if (fit === 'vehicle') return { values, known: { vehicle }, shape };
  const all = { ...values, ONE_SET: 1, CONSTANTS_CRC: crc };
  if (only === undefined || another !== undefined) {
    return { values: all, known: { vehicle }, shape };
  }
  // With a single setup that stays, the one in force is the one on board.
  const known = { vehicle, setup: only, active: only };
  return {
    values: { ...all, SETUPS_CHANGE: 0 },
    known,
    shape: shapeFor(name, vehicle[V.MOTORS]),
  };
}

/** Puts values in place of those in the enum of lib/fit.ts. */
export function fitPlugin(values: Fitting['values']): Plugin {
  return {
    name: 'fit',
    setup(setup) {
      setup.onLoad({ filter: /[\\/]lib[\\/]fit\.ts$/ }, async ({ path }) => {
        let contents = await readFile(path, 'utf8');
        for (const [name, value] of Object.entries(values)) {
          const line = new RegExp(`^( *${name} = )\\d+,$`, 'm');
          if (!line.test(contents)) throw new Error(`lib/fit.ts has no ${name}`);
          contents = contents.replace(line, `$1${value},`);
        }
        return { loader: 'ts', contents };
      });
    },
  };
}
