import { describe, expect, it } from 'vitest';
import {
  Cause,
  type Constants,
  type Controller,
  constantsCrc,
  createInputs,
  createOutputs,
  State,
  V,
} from '../../lib/index.ts';
import { type FitName, fittingFor } from '../../targets/build/fit.ts';
import type { Variant } from '../../targets/manifest.ts';
import { sampleConstants, setupCrcs } from '../engines/sample-constants.ts';
import { type SampleWishes, sampleBundle } from './sample-bundle.ts';

const own = sampleConstants({ layout: 'pair', setups: 1 });
const withCrc = (constants: Constants): Constants => ({
  ...constants,
  crc: constantsCrc(constants),
});
const otherSetup = withCrc({ ...own, setups: [sampleConstants({ layout: 'pair' }).setups[1]!] });
const bothSetups = sampleConstants({ layout: 'pair', setups: 2 });
const otherVehicles: [string, Constants][] = [
  ['another layout', sampleConstants({ layout: 'twoPairs', setups: 1 })],
  ['fewer sensors', sampleConstants({ layout: 'pair', setups: 1, sensors: ['supply'] })],
  [
    'one other number',
    withCrc({ ...own, vehicle: own.vehicle.map((k, i) => (i === V.GATE_RISE ? k + 1 : k)) }),
  ],
];

async function load(variant: Variant, fit: FitName) {
  const { code } = await sampleBundle({ variant, fit });
  return new Function(`${code}\nreturn axlewright;`)() as {
    constants: Constants;
    createController(constants: Constants): Controller;
  };
}

/** State and cause after a tick of a core with these constants. */
function begin(api: Awaited<ReturnType<typeof load>>, constants: Constants): [number, number] {
  const outputs = createOutputs();
  api.createController(constants).step(createInputs(), outputs);
  return [outputs.state, outputs.cause];
}

const good = [State.LOCKED, Cause.NONE];
const refused = [State.FAULT, Cause.BAD_CONSTANTS];

describe('a bundle fitted for its constants alone', async () => {
  const api = await load('core', 'constants');

  it('takes those it carries', () => {
    expect(begin(api, api.constants)).toEqual(good);
    expect(begin(api, own)).toEqual(good);
  });

  it.each([['another setup', otherSetup], ['a second setup', bothSetups], ...otherVehicles])(
    'refuses %s',
    (_what, constants) => expect(begin(api, constants)).toEqual(refused),
  );

  it('refuses what are no constants, and drives with its own alone', () => {
    for (const garbage of [undefined, null, {}, 7, { ...own, crc: 1 }]) {
      expect(begin(api, garbage as Constants)).toEqual(refused);
    }
    expect(begin(api, { vehicle: [], setups: [], crc: own.crc })).toEqual(good);
  });
});

describe.each(['core', 'full'] as const)('a %s bundle fitted for its vehicle', async (variant) => {
  const api = await load(variant, 'vehicle');

  it('takes other setups of the vehicle', () => {
    for (const constants of [own, otherSetup, bothSetups]) {
      expect(begin(api, constants)).toEqual(good);
    }
  });

  it.each(otherVehicles)('refuses %s', (_what, constants) => {
    expect(begin(api, constants)).toEqual(refused);
  });

  it('refuses what are no constants', () => {
    for (const garbage of [undefined, null, {}, { ...own, setups: 3 }, { ...own, crc: 1 }]) {
      expect(begin(api, garbage as Constants)).toEqual(refused);
    }
  });
});

it('a full bundle takes a new setup if it knows the vehicle, none with another one', async () => {
  const api = await load('full', 'vehicle');
  const [setup, crc] = [otherSetup.setups[0]!, setupCrcs(otherSetup)[0]!];
  expect(api.createController(own).offerSetup(0, setup, crc)).toBe(1);
  for (const [, constants] of otherVehicles) {
    expect(api.createController(constants).offerSetup(0, setup, crc)).toBe(0);
  }
});

it('a full bundle is not to be fitted for its setups: they may change', async () => {
  await expect(load('full', 'constants')).rejects.toThrow('fit it for the vehicle');
});

it.each(['constants', 'vehicle'] as const)(
  'conditions that only save work are left out where bytes count alone: %s',
  (fit) => {
    const shapes = ['any', 'smallest', 'duktape', 'mujs', 'quickjs'] as const;
    const left = shapes.map((shape) => fittingFor(fit, own, shape)!.values.BYTES_COUNT);
    expect(left).toEqual([0, 1, 0, 0, 0]);
  },
);

it('the tighter the fit, the smaller the bundle; the code that is not needed is gone', async () => {
  const bytes = async (wishes: SampleWishes) => {
    const bundle = await sampleBundle({ variant: 'core', ...wishes });
    return [bundle.bytes, bundle.parts.map(({ name }) => name)] as const;
  };
  const [any] = await bytes({ fit: 'any' });
  const [vehicle] = await bytes({ fit: 'vehicle' });
  const [constants] = await bytes({ fit: 'constants' });
  expect(vehicle).toBeLessThan(any);
  expect(constants).toBeLessThan(vehicle);
  const [bare, parts] = await bytes({ fit: 'constants', sensors: false });
  expect(bare).toBeLessThan(constants);
  for (const gone of [
    'winding',
    'supply-guard',
    'gyro-watch',
    'yaw-assist',
    'vehicle-speed',
    'finding',
  ]) {
    expect(parts).not.toContain(`lib/${gone}.ts`);
  }
});
