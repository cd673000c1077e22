import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import type { Figure, FigureSource } from './figure.ts';
import { figureBundle } from './figure-bundle.ts';

/** Size of the minified bundle with one setup, in total and by source module. */
export const bundleBytesByPart: FigureSource = {
  name: 'bytes',
  async measure() {
    return [...(await bytesOf('core')), ...(await bytesOf('full'))];
  },
};

async function bytesOf(variant: Variant): Promise<Figure[]> {
  const { bytes, parts } = await figureBundle(variant, { sensors: true, fades: false });
  const header = bytes - parts.reduce((sum, part) => sum + part.bytes, 0);
  const all = [{ name: 'header line', bytes: header }, ...parts];
  return [
    {
      what: 'bundle, one setup, minified',
      where: variant,
      value: bytes,
      unit: 'bytes',
      most: generic.maxBytes[variant],
    },
    // The parts of the core are the same in both; only what `full` adds is listed again.
    ...all
      .filter(({ name }) => variant === 'core' || /boot|full|recorder/.test(name))
      .map((part) => ({
        what: `of which ${part.name}`,
        where: variant,
        value: part.bytes,
        unit: 'bytes',
      })),
  ];
}
