import { Layout } from './codes.ts';
import { V } from './constants.ts';
import type { MomentumFit } from './momentum-fit.ts';

/**
 * Says what the gain of speed that MomentumFit tells may be wrong by. The variance of r f - a is
 * f^2 var(r) - 2 f cov(r, a) + var(a): once both are learnt they err together, and mostly make up
 * for each other at the forces at which they were learnt.
 */
export interface MomentumDoubt {
  /**
   * @param f gain of speed by r = 1 in the direction of travel, mm/s^2
   * @returns mm/s^2
   */
  run(f: number): number;
}

/**
 * @param vehicle constants of the vehicle
 * @param fit what is learnt of it
 */
export function createMomentumDoubt(vehicle: number[], fit: MomentumFit): MomentumDoubt {
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const first = fit.ratioDoubt;
  let root = fit.dragError;

  function run(f: number): number {
    // What drags on tracks changes with each bend, and makes up for nothing.
    if (tracked) return (f < 0 ? 0 - f : f) * fit.ratioError + fit.dragError;
    const square = f * (fit.ratios * f - 2 * fit.both) + fit.drags;
    // Heron's square root, a step with each tick: currents change little from one to the next.
    if (square > 0) root = (root + square / root) / 2;
    // Until r is learnt, errors that do not go together are to be reckoned with as well.
    return root + (root * fit.ratioError) / first;
  }

  return { run: run };
}
