import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';

/** Random numbers from a named seed; the state can be kept and put back. */
export interface Noise {
  /** Uniform in 0..1, 1 excluded. */
  uniform(): number;
  /** Normal with mean 0 and standard deviation 1 (Box-Muller). */
  normal(): number;
  /**
   * Draws a normal and then a uniform number, again and again: what as many calls in turns would
   * give, without a number that is handed back and so put on the heap.
   *
   * @param into where the pairs go; all of it is filled
   */
  fillPairs(into: Float64Array): void;
  snapshot(): readonly number[];
  restore(state: readonly number[]): void;
}

/** @param seed 32-bit integer; the same seed gives the same numbers on any machine */
export function createNoise(seed: number): Noise {
  let generator = xoroshiro128plus(seed);
  const draws = new Float64Array(3);
  const uniform = () => uniformFloat64(generator);
  return {
    uniform,
    normal: () => {
      const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
      return radius * Math.cos(2 * Math.PI * uniform());
    },
    fillPairs: (into) => {
      for (let at = 0; at < into.length; at += 2) {
        for (let i = 0; i < 3; i++) draws[i] = uniformFloat64(generator);
        into[at] = Math.sqrt(-2 * Math.log(1 - draws[0]!)) * Math.cos(2 * Math.PI * draws[1]!);
        into[at + 1] = draws[2]!;
      }
    },
    snapshot: () => generator.getState(),
    restore: (state) => {
      generator = xoroshiro128plusFromState(state);
    },
  };
}
