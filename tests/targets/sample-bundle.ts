import { type Bundle, buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import { sampleConstants, sampleNames } from '../engines/sample-constants.ts';

/** A bundle of hand-made constants for two motors. */
export function sampleBundle(options: {
  variant?: Variant;
  minify?: boolean;
  setups?: number;
}): Promise<Bundle> {
  const { variant = 'full' } = options;
  const constants = sampleConstants({ layout: 'pair', setups: options.setups ?? 1 });
  return buildBundle({
    target: generic,
    variant,
    fit: variant === 'core' ? 'constants' : 'vehicle',
    constants,
    setups: sampleNames.slice(0, constants.setups.length),
    minify: options.minify ?? true,
  });
}
