import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { crc32Words, createCrcTable } from '../../lib/crc32.ts';
import { constantsCrc } from '../../lib/index.ts';

const table = createCrcTable();
const words = fc.array(fc.integer(), { maxLength: 40 });

function bytesOf(list: readonly number[]): Uint8Array {
  return new Uint8Array(Int32Array.from(list).buffer);
}

it('the CRC over words is that of their bytes, least significant first, by zlib', () => {
  fc.assert(
    fc.property(words, (list) => {
      expect(crc32Words(table, list, 0, list.length, 0)).toBe(crc32(bytesOf(list)) | 0);
    }),
    { seed: 711 },
  );
});

it('the CRC goes on from where it was', () => {
  fc.assert(
    fc.property(words, words, (first, second) => {
      const all = [...first, ...second];
      const begun = crc32Words(table, all, 0, first.length, 0);
      const whole = crc32Words(table, all, first.length, second.length, begun);
      expect(whole).toBe(crc32Words(table, all, 0, all.length, 0));
      expect(constantsCrc({ vehicle: first, setups: [second], crc: 0 })).toBe(whole);
    }),
    { seed: 712 },
  );
});
