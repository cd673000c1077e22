import { type Constants, Flag, S, V } from '../../lib/index.ts';
import { Out } from './row-layout.ts';

/** Gives the flags of each tick as a reader is to be told them. */
export interface ToldFlags {
  /**
   * @param stepMs time since the last tick, ms
   * @param outputs the tick's row begins at `at`
   * @returns bits of Flag
   */
  of(stepMs: number, outputs: Int32Array, at: number): number;
}

/** What cutting off fractions of two commands takes from a rise at most, permille. */
const ROUNDING = 1;

/**
 * The core flags the current ceiling when what is wanted lies beyond it. Where the commands rise as
 * fast as the setup allows, or rest at zero before a change of direction, the ceiling takes nothing
 * from them yet, and its flag is left out.
 *
 * @param constants what is driven with
 */
export function createToldFlags({ vehicle, setups }: Constants): ToldFlags {
  const motors = vehicle[V.MOTORS]!;
  const longestMs = 2 * vehicle[V.TICK_MS]!;
  const last = new Int32Array(motors);

  function of(stepMs: number, outputs: Int32Array, at: number): number {
    const flags = outputs[at + Out.FLAGS]!;
    const setup = setups[outputs[at + Out.SLOT]!] ?? setups[0]!;
    let steepest = -Infinity;
    let isResting = true;
    for (let i = 0; i < motors; i++) {
      const now = outputs[at + Out.DRIVE + i]!;
      const rise = Math.abs(now) - Math.abs(last[i]!);
      if (rise > steepest) steepest = rise;
      if (now !== 0 || last[i] !== 0) isResting = false;
      last[i] = now;
    }
    if ((flags & Flag.CURRENT_LIMIT) === 0) return flags;
    const allowed = (setup[S.RISE]! * Math.min(stepMs, longestMs)) / 1000;
    const isSlewed = steepest > 0 && steepest >= allowed - ROUNDING;
    return isSlewed || isResting ? flags & ~Flag.CURRENT_LIMIT : flags;
  }

  return { of };
}
