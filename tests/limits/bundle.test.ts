import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../harness/check/limit-check.ts';
import { arbitraryDrive } from './arbitrary-drive.ts';
import { bundledCore } from './bundled-core.ts';
import { checkDrives } from './check-drives.ts';
import { breaches, judge } from './judge.ts';
import { holds, LONG } from './limit-suite.ts';

describe('the minified bundle with loader and ports, as a hub runs it', async () => {
  const core = await bundledCore('full');

  it.each(LIMITS)(
    'holds S%i. for arbitrary vehicles, inputs, clocks and dropouts',
    (limit) => holds(limit, core, 5, `tests/limits/bundle.test.ts -t 'S${limit}\\.'`),
    LONG,
  );
});

describe('the minified bundle of the bare core', async () => {
  const core = await bundledCore('core');

  it(
    'holds every limit for arbitrary vehicles, inputs, clocks and dropouts',
    () => {
      const property = fc.property(arbitraryDrive, (drive) => {
        const segments = drive.segments.map((segment) => ({ ...segment, offer: undefined }));
        const verdicts = judge(core, { ...drive, segments }, LIMITS);
        expect(breaches(verdicts)).toBe('');
      });
      checkDrives(property, {
        title: `A limit was broken by ${core.name}`,
        where: 'tests/limits/bundle.test.ts -t every',
        seed: 20261200,
        runs: 200,
      });
    },
    LONG,
  );
});
