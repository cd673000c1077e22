import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus, xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';

/** Random numbers from a named seed; the state can be kept and put back. */
export interface Noise {
  /** Uniform in 0..1, 1 excluded. */
  uniform(): number;
  /** Normal with mean 0 and standard deviation 1 (Box-Muller). */
  normal(): number;
  snapshot(): readonly number[];
  restore(state: readonly number[]): void;
}

/** @param seed 32-bit integer; the same seed gives the same numbers on any machine */
export function createNoise(seed: number): Noise {
  let generator = xoroshiro128plus(seed);
  const uniform = () => uniformFloat64(generator);
  return {
    uniform,
    normal: () => {
      const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
      return radius * Math.cos(2 * Math.PI * uniform());
    },
    snapshot: () => generator.getState(),
    restore: (state) => {
      generator = xoroshiro128plusFromState(state);
    },
  };
}
