import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { proveBundle } from '../../harness/engines/prove-bundle.ts';
import { coreBundle } from '../../harness/replay/core-bundle.ts';
import { laptopCore } from '../../harness/replay/laptop-core.ts';
import { verifyBundle } from '../../targets/build/header.ts';
import { layouts, sampleConstants, sampleNames } from '../engines/sample-constants.ts';

const folder = mkdtempSync(join(tmpdir(), 'axlewright-core-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the core that the laptop steps', () => {
  it.each(Object.keys(layouts) as (keyof typeof layouts)[])(
    'gives the bits of the source with the constants put in: %s',
    async (layout) => {
      const constants = sampleConstants({ layout, setups: 3 });
      const code = await coreBundle(constants, sampleNames);
      expect(verifyBundle(code).header).toMatchObject({ setups: sampleNames, variant: 'core' });
      expect(await proveBundle(code, 'core', constants)).toMatchObject({ identical: true });
    },
  );

  it('is kept, and compiled anew when it is not of these sources', async () => {
    const [before, after] = await laptopCore();
    const file = join(folder, 'core.js');
    writeFileSync(file, '// of other sources\nvar axlewright={};');
    expect(await laptopCore(file)).toEqual([before, after]);

    const kept = readFileSync(file, 'utf8');
    expect(kept).toContain(before);
    writeFileSync(file, kept.replace(before, '/* as kept */'));
    expect(await laptopCore(file)).toEqual(['/* as kept */', after]);

    writeFileSync(file, `${kept.split('\n')[0]}\nvar axlewright={};`);
    await expect(laptopCore(file)).rejects.toThrow('does not hold its constants once');

    // Nothing can be kept under a file.
    expect(await laptopCore(join(file, 'core.js'))).toEqual([before, after]);
  });
});
