import { type Constants, createController } from '../../lib/index.ts';
import { buildBundle } from '../../targets/build/bundle.ts';
import { generic } from '../../targets/generic/manifest.ts';
import type { Core } from './judge.ts';
import { plainConstants } from './plain-constants.ts';

/** The core as TypeScript source. */
export const sourceCore: Core = { name: 'the TypeScript source', createController };

/** The core as a hub runs it: out of the minified bundle. */
export async function bundledCore(): Promise<Core> {
  const { code } = await buildBundle({
    target: generic,
    variant: 'full',
    constants: plainConstants({}),
    setups: ['plain'],
    minify: true,
  });
  const api = new Function(`${code}\nreturn axlewright;`)() as {
    createController: Core['createController'];
  };
  return {
    name: 'the minified bundle',
    createController: (constants: Constants) => api.createController(constants),
  };
}
