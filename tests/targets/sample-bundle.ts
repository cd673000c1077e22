import { type Bundle, type BundleOptions, buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { type SampleOptions, sampleConstants, sampleNames } from '../engines/sample-constants.ts';

/** Two motors, all sensors, one setup, `full`, fitted and minified, where nothing is said. */
export type SampleWishes = Partial<
  Pick<BundleOptions, 'variant' | 'minify' | 'shape' | 'fit'> & SampleOptions
>;

const built = new Map<string, Promise<Bundle>>();

/** A bundle of hand-made constants; each is built once in a process, for all its tests. */
export function sampleBundle(wishes: SampleWishes): Promise<Bundle> {
  const key = JSON.stringify(optionsOf(wishes));
  const bundle = built.get(key) ?? buildSample(wishes);
  built.set(key, bundle);
  return bundle;
}

/** The same, built anew. */
export function buildSample(wishes: SampleWishes): Promise<Bundle> {
  return buildBundle(optionsOf(wishes));
}

function optionsOf(wishes: SampleWishes): BundleOptions {
  const { variant = 'full', minify = true, shape = 'any', layout = 'pair', setups = 1 } = wishes;
  const { fit = variant === 'core' ? 'constants' : 'vehicle' } = wishes;
  const constants = sampleConstants({ ...wishes, layout, setups });
  const names = sampleNames.slice(0, setups);
  return { target: generic, variant, fit, shape, constants, setups: names, minify };
}
