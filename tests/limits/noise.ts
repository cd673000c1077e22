/** Repeatable noise for a stretch of a drive. */
export interface Noise {
  /** An integer from 0 to `end` - 1. */
  below(end: number): number;
}

/** Marsaglia's xorshift with 13, 17, 5. @param seed any integer but 0 */
export function createNoise(seed: number): Noise {
  let state = seed | 0;
  return {
    below(end) {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return (state >>> 0) % end;
    },
  };
}
