import { crc32Words, createCrcTable } from '../../lib/crc32.ts';
import { BLOCK_HEADER, BLOCK_MAGIC, recordWords } from '../../lib/index.ts';
import { type Block, gatherPowerUps, type PowerUp } from './gather-power-ups.ts';

/** What a recorder kept. */
export interface Dump {
  /** In the order in which they end in the dump; none if it holds no whole block. */
  powerUps: PowerUp[];
  /** Bytes that belong to no whole block. */
  strayBytes: number;
}

/**
 * Reads every whole block out of the bytes that a hub's recorder left, torn or overwritten as they
 * may be. Never throws.
 *
 * @param bytes blocks of lib/SPEC.md in any order, of one power-up or of several
 */
export function decodeDump(bytes: Uint8Array): Dump {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const table = createCrcTable();
  const blocks: Block[] = [];
  let strayBytes = 0;
  let at = 0;
  while (at < bytes.length) {
    const block = readBlock(view, at, table);
    if (block === undefined) {
      strayBytes++;
      at++;
      continue;
    }
    blocks.push(block);
    at += block.bytes;
  }
  return { powerUps: gatherPowerUps(blocks), strayBytes };
}

function readBlock(view: DataView, at: number, table: number[]): Block | undefined {
  if (at + 4 * (BLOCK_HEADER + 1) > view.byteLength) return undefined;
  if (view.getInt32(at, true) !== BLOCK_MAGIC) return undefined;
  const shape = view.getInt32(at + 8, true);
  const motors = shape >> 16;
  const width = (shape >> 8) & 255;
  const count = shape & 255;
  const length = BLOCK_HEADER + count * width + 1;
  if (width !== recordWords(motors) || at + 4 * length > view.byteLength) return undefined;
  const words: number[] = [];
  for (let i = 0; i < length; i++) words.push(view.getInt32(at + 4 * i, true));
  const crc = words[length - 1]!;
  if (crc32Words(table, words, 0, length - 1, 0) !== crc) return undefined;
  const records: Int32Array[] = [];
  for (let i = 0; i < count; i++) {
    const from = BLOCK_HEADER + i * width;
    records.push(Int32Array.from(words.slice(from, from + width)));
  }
  const [, sequence, , constants, before] = words as [number, number, number, number, number];
  return { sequence, motors, constants, before, crc, bytes: 4 * length, records };
}
