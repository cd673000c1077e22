import { crc32 } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import {
  BLOCK_HEADER,
  BLOCK_MAGIC,
  createInputs,
  createOutputs,
  createRecorder,
  MISSING,
  type Recorder,
  recordWords,
} from '../../lib/index.ts';

/** Numbers of the blocks in the ring that are whole, by their own CRC, in the ring's order. */
function wholeBlocks({ ring, blockWords }: Recorder): (number | undefined)[] {
  const numbers: (number | undefined)[] = [];
  for (let at = 0; at < ring.length; at += blockWords) {
    const words = Int32Array.from(ring.slice(at, at + blockWords - 1));
    const whole =
      ring[at] === BLOCK_MAGIC &&
      ring[at + blockWords - 1] === (crc32(new Uint8Array(words.buffer)) | 0);
    numbers.push(whole ? ring[at + 1] : undefined);
  }
  return numbers;
}

function tickOf(n: number) {
  const inputs = { ...createInputs(), timeMs: n, throttleUs: 1500 + (n % 100), guest: 1, slot: 2 };
  const outputs = { ...createOutputs(), steer: -n % 1000, drive: [n % 1000, -n % 1000, 1, -1] };
  return { inputs, outputs };
}

describe('the ring of blocks', () => {
  it.each([
    [1, 14],
    [2, 14],
    [4, 17],
  ])('with %i motors has records of %i words', (motors, width) => {
    expect(recordWords(motors)).toBe(width);
    const recorder = createRecorder(motors, 5, 3, 7);
    expect(recorder.blockWords).toBe(BLOCK_HEADER + 5 * width + 1);
    expect(recorder.ring).toHaveLength(3 * recorder.blockWords);
    expect(recorder.done).toBe(-1);
  });

  it('wraps: the oldest block is overwritten, all others stay whole at every tick', () => {
    const recorder = createRecorder(2, 4, 3, 7);
    for (let n = 0; n < 100; n++) {
      const { inputs, outputs } = tickOf(n);
      const done = recorder.put(inputs, outputs);
      const complete = Math.floor((n + 1) / 4);
      expect(done).toBe((n + 1) % 4 === 0 ? 1 : 0);
      expect(recorder.ring).toHaveLength(3 * recorder.blockWords);
      if (complete > 0) expect(recorder.done).toBe(((complete - 1) % 3) * recorder.blockWords);
      // The one being written is torn; those before it in the ring are the last ones completed.
      const torn = (n + 1) % 4 === 0 ? 0 : 1;
      const kept = Math.min(complete, 3 - torn);
      const want = Array.from({ length: kept }, (_, i) => complete - kept + i);
      const whole = wholeBlocks(recorder).filter((number) => number !== undefined);
      expect(whole.sort((a, b) => a - b)).toEqual(want);
    }
  });

  it('refuses a block after a change of any one of its bytes', () => {
    const recorder = createRecorder(2, 2, 1, 7);
    for (let n = 0; n < 2; n++) {
      const { inputs, outputs } = tickOf(n);
      recorder.put(inputs, outputs);
    }
    expect(wholeBlocks(recorder)).toEqual([0]);
    for (let byte = 0; byte < 4 * recorder.blockWords; byte++) {
      const word = byte >> 2;
      recorder.ring[word]! ^= 1 << (8 * (byte & 3));
      expect(wholeBlocks(recorder)).toEqual([undefined]);
      recorder.ring[word]! ^= 1 << (8 * (byte & 3));
    }
    expect(wholeBlocks(recorder)).toEqual([0]);
  });
});

describe('a record', () => {
  it('holds every value of a tick in its half of a word', () => {
    const recorder = createRecorder(4, 1, 1, 7);
    const inputs = {
      timeMs: -123456,
      throttleUs: 1601,
      steerUs: 1402,
      ageMs: 7,
      slot: 2,
      guest: 1,
      batteryMv: 7123,
      yawRateMradS: -2345,
      currentMa: [-1, 22, -333, MISSING],
      wheelDegS: [700, -800, MISSING, 5],
    };
    const outputs = {
      ...createOutputs(),
      drive: [-1000, 999, -998, 997],
      enable: 1,
      steer: -456,
      state: 2,
      cause: 11,
      flags: 5,
      throttle: 123.9,
      demand: -123.9,
      cut: 45.6,
      limit: 987.6,
      speed: -4321.9,
      found: 4097,
      spin: 765.4,
      free: 654.3,
      jam: 543.2,
      assist: -12.3,
    };
    recorder.put(inputs, outputs);
    const halves = recorder.ring
      .slice(BLOCK_HEADER + 1, -1)
      .flatMap((word) => [word >> 16, (word << 16) >> 16]);
    expect(recorder.ring[BLOCK_HEADER]).toBe(-123456);
    expect(halves).toEqual([
      ...[1601, 1402, 7, 7123, -2345, 2 * 2 + 1, -456, 5, 123, -123, 45, 987, 2 * 2 + 1, 11],
      ...[-4321, 4097, 765, -12, 654, 543],
      ...[-1, 22, 700, -800, -1000, 999],
      ...[-333, MISSING, MISSING, 5, -998, 997],
    ]);
  });
});
