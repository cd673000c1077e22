import type { Engine } from '../../harness/engines/engine.ts';
import { engines } from '../../harness/engines/engines.ts';
import { need } from '../needs.ts';

/** The engines there are on this machine; with CI=true a missing one is an error. */
export const usableEngines: readonly Engine[] = engines.filter(
  ({ name }) =>
    (name !== 'duktape' || need('duk') !== null) && (name !== 'mujs' || need('mujs') !== null),
);
