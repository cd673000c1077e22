import { expect, it } from 'vitest';
import { proveBundle } from '../../harness/engines/prove-bundle.ts';
import { sampleBundle } from '../targets/sample-bundle.ts';
import { sampleConstants } from './sample-constants.ts';

const constants = sampleConstants({ layout: 'pair', setups: 1 });

it('a script that is its source is proven, and one that differs in one number is not', async () => {
  const { code } = await sampleBundle({ variant: 'core' });
  expect(await proveBundle(code, 'core', constants)).toEqual({ ticks: 8000, identical: true });
  // Low-passes of 200 ms: that of the supply, and that of the gyro's noise.
  const bent = code.replaceAll(/\b200\b/g, '201');
  expect(bent).not.toBe(code);
  expect((await proveBundle(bent, 'core', constants)).identical).toBe(false);
});
