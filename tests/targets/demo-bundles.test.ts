import { expect, it } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { bake } from '../../harness/setup/bake.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';

// The hatch, which has every sensor, is built by the README's commands; see tests/tidy.
it.each(['full', 'core'] as const)('the gate passes the coupe’s script, %s', async (variant) => {
  const garage = await loadGarage(demoGarage('coupe'));
  const setups = garage.setups.slice(0, variant === 'core' ? 1 : undefined);
  const { warnings } = await buildBundle({
    target: generic,
    variant,
    constants: bake(garage.vehicle, setups),
    setups: setups.map(({ name }) => name),
    minify: true,
    fit: variant === 'core' ? 'constants' : 'vehicle',
  });
  expect(warnings).toEqual([]);
});
