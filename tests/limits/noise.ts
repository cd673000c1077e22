import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Repeatable noise for a stretch of a drive. */
export interface Noise {
  /** An integer from 0 to `end` - 1. */
  below(end: number): number;
}

/** @param seed any integer */
export function createNoise(seed: number): Noise {
  const generator = xoroshiro128plus(seed);
  return { below: (end) => uniformInt(generator, 0, end - 1) };
}
