import { describe, expect, it } from 'vitest';
import { type DrivePlan, driveHere, driveScript } from '../../harness/engines/drive-script.ts';
import { nodeEngine } from '../../harness/engines/node-engine.ts';
import * as source from '../../lib/index.ts';
import type { FitName } from '../../targets/build/fit.ts';
import type { ShapeName } from '../../targets/build/shape.ts';
import type { Variant } from '../../targets/manifest.ts';
import { sampleBundle } from '../targets/sample-bundle.ts';
import {
  layouts,
  type Option,
  type Sensor,
  sampleConstants,
  setupCrcs,
} from './sample-constants.ts';
import { usableEngines } from './usable-engines.ts';

interface Case {
  variant: Variant;
  fit: FitName;
  layout: keyof typeof layouts;
  sensors: boolean | readonly Sensor[];
  setups: number;
  off?: readonly Option[];
  /** What it is shaped for. */
  shape?: ShapeName;
}

const names = Object.keys(layouts) as Case['layout'][];
const sensorFits: readonly Case['sensors'][] = [
  true,
  false,
  ['current'],
  ['supply', 'gyro'],
  ['supply', 'current', 'gyro'],
];

/** What the specialised bundle prints, and what the TypeScript source does. */
async function prepare(one: Case, ticks: number) {
  const constants = sampleConstants(one);
  const { code } = await sampleBundle(one);
  const createController = one.variant === 'core' ? source.createCore : source.createController;
  const crcs = setupCrcs(constants);
  const motors = constants.vehicle[source.V.MOTORS]!;
  const plan: DrivePlan = { kind: 'stream', seed: 'fit', ticks, every: 1000, motors, crcs };
  return {
    script: await driveScript(code, plan),
    expected: driveHere({ ...source, createController, constants }, plan),
  };
}

/** A campaign tries every layout with every fit of sensors, and drives each for longer. */
const campaign = process.env.MODE === 'campaign';
const TICKS = campaign ? 100_000 : 2000;

/** The rest bit-identity.test.ts drives, on every engine. */
const vehicleFits = (campaign ? names : []).flatMap((layout) =>
  sensorFits.map((sensors) => ({ layout, sensors })),
);

/** Outside a campaign what each fit, layout and shape has of its own is met once. */
const coreFits = names.flatMap((layout) =>
  [true, false]
    .filter((sensors) => campaign || (layout === 'pair' && !sensors))
    .map((sensors) => ({ layout, sensors })),
);

/** That for MuJS is that for Duktape without names for numbers. */
const shapes: ShapeName[] = ['smallest', 'duktape', 'quickjs'];
if (campaign) shapes.push('mujs');

/** Every layout and sensor is tried in the shape for any engine. */
const shaped = shapes.flatMap((shape) =>
  names
    .filter((layout) => campaign || layout === (shape === 'quickjs' ? 'tracked' : 'pair'))
    .flatMap((layout) =>
      (campaign ? [true, false] : [true]).map((sensors) => ({ layout, sensors, shape })),
    ),
);

/** All of them, and in a campaign each alone and each left alone. */
const options: readonly Option[] = ['spin', 'free', 'jam', 'yawAssist'];
const switchedOff: readonly { off: readonly Option[] }[] = [
  { off: options },
  ...options.slice(0, campaign ? 4 : 0).map((one) => ({ off: [one] })),
  ...options.slice(0, campaign ? 4 : 0).map((one) => ({ off: options.filter((o) => o !== one) })),
];

// Tried once more, as in bit-identity.test.ts: the command of an engine may not end.
describe('a bundle fitted for its vehicle gives the bits of the source', { retry: 1 }, () => {
  it.runIf(campaign).each(vehicleFits)(
    '$layout, sensors $sensors: any setups of the vehicle, on Node',
    async ({ layout, sensors }) => {
      const one = { variant: 'full', fit: 'vehicle', layout, sensors, setups: 2 } as const;
      const { script, expected } = await prepare(one, TICKS);
      expect(await nodeEngine.run(script)).toBe(expected);
    },
  );

  it.each(coreFits)(
    '$layout, sensors $sensors: one setup alone, on every engine',
    async ({ layout, sensors }) => {
      const one = { variant: 'core', fit: 'constants', layout, sensors, setups: 1 } as const;
      const { script, expected } = await prepare(one, TICKS);
      for (const engine of usableEngines) {
        expect(await engine.run(script), engine.name).toBe(expected);
      }
    },
  );

  it.each(shaped)(
    '$layout, sensors $sensors, shaped $shape: one setup alone, on every engine',
    async ({ layout, sensors, shape }) => {
      const one = {
        variant: 'core',
        fit: 'constants',
        layout,
        sensors,
        setups: 1,
        shape,
      } as const;
      const { script, expected } = await prepare(one, TICKS);
      for (const runs of usableEngines) expect(await runs.run(script), runs.name).toBe(expected);
    },
  );

  it.each(switchedOff)('$off switched off: one setup alone', async ({ off }) => {
    const own = { layout: 'pair', sensors: true, setups: 1, off } as const;
    const { script, expected } = await prepare(
      { variant: 'core', fit: 'constants', ...own },
      TICKS,
    );
    expect(await nodeEngine.run(script)).toBe(expected);
  });

  const anySetups: ShapeName[] = campaign ? ['quickjs', 'smallest'] : ['smallest'];
  it.each(anySetups)('its vehicle, shaped %s: any setups', async (shape) => {
    const own = { layout: 'pair', sensors: true, setups: 2, shape } as const;
    const { script, expected } = await prepare({ variant: 'full', fit: 'vehicle', ...own }, TICKS);
    for (const engine of usableEngines)
      expect(await engine.run(script), engine.name).toBe(expected);
  });

  it('two setups alone, yawAssist switched off, on every engine', async () => {
    const own = { layout: 'pair', sensors: true, setups: 2, off: ['yawAssist'] } as const;
    const { script, expected } = await prepare(
      { variant: 'core', fit: 'constants', ...own },
      TICKS,
    );
    for (const engine of usableEngines)
      expect(await engine.run(script), engine.name).toBe(expected);
  });
});
