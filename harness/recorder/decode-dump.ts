import { crc32Words, createCrcTable } from '../../lib/crc32.ts';
import { BLOCK_HEADER, BLOCK_MAGIC, recordWords } from '../../lib/index.ts';

/** A run as a recorder kept it. */
export interface Dump {
  motors: number;
  /** Records in the order of time, each as words of the layout in lib/SPEC.md. */
  records: Int32Array[];
  /** Whether the first tick after power-up is among them. */
  startsAtPowerUp: boolean;
  /** What could not be read, in the reader's words. */
  losses: string[];
}

/**
 * Reads every whole block out of the bytes that a hub's recorder left, torn or overwritten as they
 * may be. Never throws; what is lost is said.
 *
 * @param bytes blocks of lib/SPEC.md in any order
 */
export function decodeDump(bytes: Uint8Array): Dump {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const table = createCrcTable();
  const blocks = new Map<number, Block>();
  const losses: string[] = [];
  let skipped = 0;
  let at = 0;
  while (at < bytes.length) {
    const block = readBlock(view, at, table);
    if (block === undefined) {
      skipped++;
      at++;
      continue;
    }
    blocks.set(block.sequence, block);
    at += block.words.length * 4;
  }
  if (skipped > 0) losses.push(`${skipped} bytes belong to no whole block`);
  const ordered = [...blocks.values()].sort((a, b) => a.sequence - b.sequence);
  for (let i = 1; i < ordered.length; i++) {
    const missing = ordered[i]!.sequence - ordered[i - 1]!.sequence - 1;
    if (missing > 0)
      losses.push(`${missing} blocks are missing before block ${ordered[i]!.sequence}`);
  }
  return {
    motors: ordered[0]?.motors ?? 0,
    records: ordered.flatMap((block) => block.records),
    startsAtPowerUp: ordered[0]?.sequence === 0,
    losses,
  };
}

interface Block {
  sequence: number;
  motors: number;
  words: number[];
  records: Int32Array[];
}

function readBlock(view: DataView, at: number, table: number[]): Block | undefined {
  if (at + 4 * (BLOCK_HEADER + 1) > view.byteLength) return undefined;
  if (view.getInt32(at, true) !== BLOCK_MAGIC) return undefined;
  const sequence = view.getInt32(at + 4, true);
  const shape = view.getInt32(at + 8, true);
  const motors = shape >> 16;
  const width = (shape >> 8) & 255;
  const count = shape & 255;
  const length = BLOCK_HEADER + count * width + 1;
  if (width !== recordWords(motors) || at + 4 * length > view.byteLength) return undefined;
  const words: number[] = [];
  for (let i = 0; i < length; i++) words.push(view.getInt32(at + 4 * i, true));
  if (crc32Words(table, words, 0, length - 1, 0) !== words[length - 1]) return undefined;
  const records: Int32Array[] = [];
  for (let i = 0; i < count; i++) {
    const from = BLOCK_HEADER + i * width;
    records.push(Int32Array.from(words.slice(from, from + width)));
  }
  return { sequence, motors, words, records };
}
