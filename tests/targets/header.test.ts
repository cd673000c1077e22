import { readFileSync } from 'node:fs';
import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { hex32, verifyBundle, withHeader } from '../../targets/build/header.ts';
import { sampleBundle } from './sample-bundle.ts';

const spec = readFileSync(new URL('../../targets/SPEC.md', import.meta.url), 'utf8');

it('the worked example of targets/SPEC.md verifies, and says what the text says', () => {
  const example = /### Worked example[\s\S]*?```text\n([\s\S]*?)```/.exec(spec)![1]!;
  expect(verifyBundle(example)).toEqual({
    header: {
      version: '0.1.0',
      target: 'generic',
      variant: 'core',
      setups: ['hall', 'carpet'],
      constants: '0badcafe',
      crc: '9d165c9f',
    },
  });
});

it('the CRC is CRC-32 of IEEE 802.3: check value cbf43926 (CRC RevEng, CRC-32/ISO-HDLC)', () => {
  expect(hex32(crc32('123456789'))).toBe('cbf43926');
  expect(spec).toContain('cbf43926');
  const header = { version: '1', target: 't', variant: 'core', setups: ['a'] } as const;
  const file = withHeader({ ...header, setups: ['a'], constants: '00000000' }, '123456789');
  expect(file.split('\n')[0]).toMatch(/; crc cbf43926$/);
});

it('a real bundle verifies, and names its setups and constants', async () => {
  const { code } = await sampleBundle({ setups: 2 });
  const { header } = verifyBundle(code);
  expect(header).toMatchObject({ target: 'generic', variant: 'full', setups: ['hall', 'carpet'] });
  const { sampleConstants } = await import('../engines/sample-constants.ts');
  expect(header!.constants).toBe(hex32(sampleConstants({ layout: 'pair' }).crc));
});

it('a bundle that is shaped for an engine says so', async () => {
  const { code } = await sampleBundle({ variant: 'core', shape: 'quickjs' });
  expect(code.split('\n')[0]).toContain('; engine quickjs; ');
  expect(verifyBundle(code).header).toMatchObject({ engine: 'quickjs', setups: ['hall'] });
});

it('any changed, lost or added character is found', async () => {
  const { code } = await sampleBundle({ setups: 2 });
  const place = fc.integer({ min: 0, max: code.length - 1 });
  fc.assert(
    fc.property(place, fc.integer({ min: 1, max: 127 }), (at, flip) => {
      const other = String.fromCharCode(code.charCodeAt(at) ^ flip);
      const changed = code.slice(0, at) + other + code.slice(at + 1);
      const verified = verifyBundle(changed);
      // A change within the first line may give another well-formed header, never another code.
      if (at > code.indexOf('\n')) expect(verified.problem).toContain('the code has CRC-32');
      else if (verified.header) expect(changed.split('\n')[1]).toBe(code.split('\n')[1]);
    }),
    { seed: 11, numRuns: 300 },
  );
  fc.assert(
    fc.property(place, (length) => {
      expect(verifyBundle(code.slice(0, length)).problem).toBeDefined();
    }),
    { seed: 12, numRuns: 100 },
  );
  expect(verifyBundle(`${code}\n`).problem).toContain('build or copy it again');
  expect(verifyBundle('').problem).toContain('axlewright build');
});
