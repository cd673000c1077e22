import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { crc32Words, createCrcTable } from '../../lib/crc32.ts';
import published from './crc32.json' with { type: 'json' };

describe('CRC-32 of IEEE 802.3: the CRC catalogue’s check value (from memory; zlib agrees)', () => {
  const bytes = Buffer.from(published.text, 'ascii');

  it('is what zlib gives', () => {
    expect(crc32(bytes).toString(16)).toBe(published.check);
  });

  it("is what the core's table gives, byte by byte", () => {
    const table = createCrcTable();
    let register = 0xffffffff;
    for (const byte of bytes) register = table[(register ^ byte) & 255]! ^ (register >>> 8);
    expect((~register >>> 0).toString(16)).toBe(published.check);
  });

  it('follows from the words before its last byte: the core goes on from there', () => {
    // Eight bytes are two words of four, least significant byte first; '9' is the ninth.
    const table = createCrcTable();
    const words = [bytes.readInt32LE(0), bytes.readInt32LE(4)];
    const eight = crc32Words(table, words, 0, 2, 0);
    const register = ~eight;
    const nine = table[(register ^ bytes[8]!) & 255]! ^ (register >>> 8);
    expect((~nine >>> 0).toString(16)).toBe(published.check);
  });
});
