import { expect, it } from 'vitest';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import { bake } from '../../harness/setup/bake.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';

it('a car without a gyro, which leaves yaw assist off, gets a core for one setup', async () => {
  const garage = await loadGarage(demoGarage('coupe'));
  const [setup] = garage.setups;
  const { warnings } = await buildBundle({
    target: generic,
    variant: 'core',
    constants: bake(garage.vehicle, [setup!]),
    setups: [setup!.name],
    minify: true,
    fit: 'constants',
  });
  expect(warnings).toEqual([]);
});
