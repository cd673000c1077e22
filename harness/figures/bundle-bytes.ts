import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import type { Figure, FigureSource } from './figure.ts';
import { type FigureCar, figureBundle } from './figure-bundle.ts';

/** Size of the minified bundle: in total and by source module, and by what it is fitted for. */
export const bundleBytesByPart: FigureSource = {
  name: 'bytes',
  async measure() {
    const figures = [...(await bytesByPart('core')), ...(await bytesByPart('full'))];
    for (const [what, variant, car] of FITS) {
      const { bytes } = await figureBundle(variant, car);
      // What is fitted for anything stays on the laptop.
      const goal = car.fit === 'any' ? {} : { most: mostBytes(variant, car) };
      figures.push({ what, where: variant, value: bytes, unit: 'bytes', ...goal });
    }
    return figures;
  },
};

/** Greatest size with one setup, bytes. A hub may take more; see its manifest. */
const GOAL: Readonly<Record<Variant, number>> = { core: 10240, full: 16384 };

const ALL = { sensors: true, fades: false } as const;

/** Other fits: what is on board, for which variant. */
const FITS: readonly (readonly [what: string, variant: Variant, car: FigureCar])[] = [
  ['the same, as small as can be', 'full', { ...ALL, shape: 'smallest' }],
  ['the same, one setup alone', 'core', { ...ALL, shape: 'smallest' }],
  [
    'the same, without lost drive and yaw assist',
    'core',
    { ...ALL, shape: 'smallest', off: ['free', 'yawAssist'] },
  ],
  [
    'the same, without any finding, with yaw assist',
    'core',
    { ...ALL, shape: 'smallest', off: ['spin', 'free', 'jam'] },
  ],
  ['all stages on, shaped for Duktape', 'core', { ...ALL, shape: 'duktape' }],
  ['the same, shaped for MuJS', 'core', { ...ALL, shape: 'mujs' }],
  ['the same, shaped for QuickJS', 'core', { ...ALL, shape: 'quickjs' }],
  ['the same, fitted for its vehicle', 'core', { ...ALL, fit: 'vehicle' }],
  ['the same, fitted for nothing', 'core', { ...ALL, fit: 'any' }],
  ['the same, fitted for nothing', 'full', { ...ALL, fit: 'any' }],
  ['two setups alone: pair, supply, current, gyro', 'core', { ...ALL, fades: true }],
  ['one setup alone: pair, supply', 'core', { sensors: false, fades: false }],
  ['its vehicle: pair, supply', 'full', { sensors: false, fades: false }],
  ['one setup alone: pair, supply, 20 ms', 'core', { ...ALL, garage: 'coupe' }],
  ['its vehicle: pair, supply, 20 ms', 'full', { ...ALL, garage: 'coupe' }],
  ['one setup alone: tracked', 'core', { ...ALL, garage: 'forwarder' }],
  ['its vehicle: tracked', 'full', { ...ALL, garage: 'forwarder' }],
];

function mostBytes(variant: Variant, { fades }: FigureCar): number {
  return GOAL[variant] + (fades ? generic.maxBytesPerFurtherSetup : 0);
}

/** Size of the bundle as `axlewright build` fits it, every stage on, and of its parts. */
export async function bytesByPart(variant: Variant): Promise<Figure[]> {
  const { bytes, parts } = await figureBundle(variant, ALL);
  const header = bytes - parts.reduce((sum, part) => sum + part.bytes, 0);
  const all = [{ name: 'header line', bytes: header }, ...parts];
  const fit = variant === 'core' ? 'one setup alone' : 'its vehicle';
  return [
    {
      what: `bundle fitted for ${fit}: pair, supply, current, gyro, all stages on`,
      where: variant,
      value: bytes,
      unit: 'bytes',
      most: GOAL[variant],
    },
    // The parts of the core are much the same in both; what `full` adds is listed again.
    ...all
      .filter(({ name }) => variant === 'core' || /boot|full|recorder|loader|crc32/.test(name))
      .map((part) => ({
        what: `of which ${part.name}`,
        where: variant,
        value: part.bytes,
        unit: 'bytes',
      })),
  ];
}
