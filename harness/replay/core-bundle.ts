import type { Constants } from '../../lib/index.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { headerName } from '../words/header-name.ts';

const built = new Map<string, Promise<string>>();

/**
 * The minified core, fitted for any constants, that runs are replayed and drives are made with.
 * Built once for the same constants and names: who replays or simulates again waits no more.
 *
 * @param names of the setups, as a person writes them
 */
export function coreBundle(constants: Constants, names: readonly string[]): Promise<string> {
  const key = JSON.stringify([constants, names]);
  const code = built.get(key) ?? build(constants, names);
  built.set(key, code);
  return code;
}

async function build(constants: Constants, names: readonly string[]): Promise<string> {
  // Loaded where it is used: the compiler alone takes half a second.
  const { buildBundle } = await import('../../targets/build/bundle.ts');
  const setups = names.map(headerName);
  const bundle = await buildBundle({
    ...{ target: generic, variant: 'core', constants, setups },
    minify: true,
  });
  return bundle.code;
}
