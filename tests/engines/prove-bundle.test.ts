import { expect, it } from 'vitest';
import { proveBundle } from '../../harness/engines/prove-bundle.ts';
import { buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { sampleConstants, sampleNames } from './sample-constants.ts';

const constants = sampleConstants({ layout: 'pair', setups: 1 });

async function script(): Promise<string> {
  const { code } = await buildBundle({
    target: generic,
    variant: 'core',
    constants,
    setups: sampleNames.slice(0, 1),
    minify: true,
    fit: 'constants',
  });
  return code;
}

it('a script that is its source is proven, and one that differs in one number is not', async () => {
  const code = await script();
  expect(await proveBundle(code, 'core', constants)).toEqual({ ticks: 8000, identical: true });
  // Low-passes of 200 ms: that of the supply, and that of the gyro's noise.
  const bent = code.replaceAll(/\b200\b/g, '201');
  expect(bent).not.toBe(code);
  expect((await proveBundle(bent, 'core', constants)).identical).toBe(false);
});
