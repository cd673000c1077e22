import type { Constants, Controller } from '../../lib/index.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Variant } from '../../targets/manifest.ts';
import { keptBundle } from '../targets/sample-bundle.ts';
import type { Core } from './judge.ts';
import { plainConstants } from './plain-constants.ts';

/**
 * The core as a hub runs it: out of the minified bundle.
 *
 * @param variant the bare core takes no new setups: `offerSetup` is not to be called then
 */
export async function bundledCore(variant: Variant): Promise<Core> {
  const { code } = await keptBundle({
    target: generic,
    variant,
    constants: plainConstants({}),
    setups: ['plain'],
    minify: true,
  });
  const api = new Function(`${code}\nreturn axlewright;`)() as {
    createController: (constants: Constants) => Controller;
  };
  return {
    name: `the minified bundle, ${variant}`,
    createController: (constants) => api.createController(constants),
  };
}
