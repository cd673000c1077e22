import { crc32Words, createCrcTable } from './crc32.ts';
import type { Inputs, Outputs } from './signals.ts';

/** First word of every block: "AXW1" read as bytes, least significant first. */
export const BLOCK_MAGIC = 0x31575841;
/** Words before the records of a block: magic, sequence, shape, constants, block before. */
export const BLOCK_HEADER = 5;

/**
 * Records ticks in fixed-width records, gathered in blocks that each carry a sequence number and a
 * CRC-32, in a ring. A block is whole or it is not: after a power cut at any byte every block
 * written before stays readable. It names the constants that were driven with, and the block before
 * it, so that power-ups whose blocks are kept together can be told apart. The layout stands in
 * lib/SPEC.md.
 */
export interface Recorder {
  /** All blocks, 32-bit words. */
  ring: number[];
  /** Words in a block. */
  blockWords: number;
  /** Index in `ring` of the block that was completed last; -1 before the first. */
  done: number;
  /** Records one tick, after `step`. Returns 1 if that completed a block. */
  put(inputs: Inputs, outputs: Outputs): number;
}

/**
 * @param motors number of motors, 1, 2 or 4
 * @param records records in a block, 1 to 255
 * @param blocks blocks in the ring, 1 or more
 * @param constants `Constants.crc` of what is driven with
 */
export function createRecorder(
  motors: number,
  records: number,
  blocks: number,
  constants: number,
): Recorder {
  const table = createCrcTable();
  const width = recordWords(motors);
  const blockWords = BLOCK_HEADER + records * width + 1;
  const ring: number[] = [];
  for (let i = 0; i < blockWords * blocks; i++) ring.push(0);
  const shape = (motors << 16) | (width << 8) | records;
  let block = 0;
  let count = 0;
  let sequence = 0;
  let crc = 0;
  const self = { ring: ring, blockWords: blockWords, done: -1, put: put };

  function put(inputs: Inputs, outputs: Outputs): number {
    const start = block * blockWords;
    if (count === 0) {
      ring[start] = BLOCK_MAGIC;
      ring[start + 1] = sequence;
      ring[start + 2] = shape;
      ring[start + 3] = constants;
      ring[start + 4] = crc;
      crc = crc32Words(table, ring, start, BLOCK_HEADER, 0);
    }
    const at = start + BLOCK_HEADER + count * width;
    store(ring, at, motors, inputs, outputs);
    crc = crc32Words(table, ring, at, width, crc);
    count++;
    if (count < records) return 0;
    ring[start + blockWords - 1] = crc;
    self.done = start;
    count = 0;
    sequence++;
    block = block + 1 < blocks ? block + 1 : 0;
    return 1;
  }

  return self;
}

/** Words in one record. */
export function recordWords(motors: number): number {
  return motors > 2 ? 17 : 14;
}

function store(ring: number[], at: number, motors: number, inputs: Inputs, outputs: Outputs): void {
  ring[at] = inputs.timeMs;
  ring[at + 1] = pair(inputs.throttleUs, inputs.steerUs);
  ring[at + 2] = pair(inputs.ageMs, inputs.batteryMv);
  ring[at + 3] = pair(inputs.yawRateMradS, (inputs.slot << 1) | inputs.guest);
  ring[at + 4] = pair(outputs.steer, outputs.flags);
  ring[at + 5] = pair(outputs.throttle, outputs.demand);
  ring[at + 6] = pair(outputs.cut, outputs.limit);
  ring[at + 7] = pair((outputs.state << 1) | outputs.enable, outputs.cause);
  ring[at + 8] = pair(outputs.speed, outputs.found);
  ring[at + 9] = pair(outputs.spin, outputs.assist);
  ring[at + 10] = pair(outputs.free, outputs.jam);
  ring[at + 11] = pair(inputs.currentMa[0], inputs.currentMa[1]);
  ring[at + 12] = pair(inputs.wheelDegS[0], inputs.wheelDegS[1]);
  ring[at + 13] = pair(outputs.drive[0], outputs.drive[1]);
  if (motors > 2) {
    ring[at + 14] = pair(inputs.currentMa[2], inputs.currentMa[3]);
    ring[at + 15] = pair(inputs.wheelDegS[2], inputs.wheelDegS[3]);
    ring[at + 16] = pair(outputs.drive[2], outputs.drive[3]);
  }
}

/** Two 16-bit integers in a word, the first in the upper half; fractions are cut off. */
function pair(upper: number, lower: number): number {
  return (upper << 16) | (lower & 65535);
}
