import { type Bundle, buildBundle } from '../../targets/build/bundle.ts';
import type { ShapeName } from '../../targets/build/shape.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import { sampleConstants, sampleNames } from '../engines/sample-constants.ts';

interface Wishes {
  variant?: Variant;
  minify?: boolean;
  setups?: number;
  shape?: ShapeName;
}

const built = new Map<string, Promise<Bundle>>();

/** A bundle of hand-made constants for two motors; each is built once in a process. */
export function sampleBundle(options: Wishes): Promise<Bundle> {
  const { variant = 'full', minify = true, setups = 1, shape = 'any' } = options;
  const key = `${variant} ${minify} ${setups} ${shape}`;
  const bundle = built.get(key) ?? buildSample(options);
  built.set(key, bundle);
  return bundle;
}

/** The same, built anew. */
export function buildSample(options: Wishes): Promise<Bundle> {
  const { variant = 'full', shape = 'any' } = options;
  const constants = sampleConstants({ layout: 'pair', setups: options.setups ?? 1 });
  return buildBundle({
    target: generic,
    variant,
    fit: variant === 'core' ? 'constants' : 'vehicle',
    shape,
    constants,
    setups: sampleNames.slice(0, constants.setups.length),
    minify: options.minify ?? true,
  });
}
