import { describe, it } from 'vitest';
import { LIMITS } from '../../harness/check/limit-check.ts';
import { bundledCore } from './cores.ts';
import { holds } from './limit-suite.ts';

const core = await bundledCore();

describe('the minified bundle, as a hub runs it', () => {
  it.each(LIMITS)(
    'holds S%i. for arbitrary vehicles, inputs, clocks and dropouts',
    (limit) => {
      holds(limit, core, 5, `tests/limits/bundle.test.ts -t S${limit}.`);
    },
    3_600_000,
  );
});
