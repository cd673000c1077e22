import type { Constants } from '../../lib/index.ts';
import { headerOf, withHeader } from '../../targets/build/header.ts';
import { generic } from '../../targets/generic/manifest.ts';
import { headerName } from '../words/header-name.ts';
import { constantsText, laptopCore } from './laptop-core.ts';

let loaded: ReturnType<typeof laptopCore> | undefined;

/**
 * The minified core, fitted for any constants, that runs are replayed and drives are made with.
 *
 * @param names of the setups, as a person writes them
 */
export async function coreBundle(constants: Constants, names: readonly string[]): Promise<string> {
  loaded ??= laptopCore();
  const [before, after] = await loaded;
  const about = { target: generic.name, variant: 'core', setups: names.map(headerName) } as const;
  const header = headerOf(about, constants.crc);
  return withHeader(header, before + constantsText(constants) + after);
}
