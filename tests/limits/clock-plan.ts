import type { ClockPlan } from './arbitrary-drive.ts';
import type { Noise } from './noise.ts';

/** Gives the time stamps of a drive, whatever its clock does. */
export interface ClockSource {
  /** @param i number of the tick in its stretch */
  next(plan: ClockPlan, i: number, noise: Noise): number;
}

/** What a broken clock may hand over. */
const ANY: readonly unknown[] = [Number.NaN, Infinity, undefined, null, '12', 0.5, 2 ** 40, {}];

/** @param startMs first time stamp */
export function createClockPlan(startMs: number, tickMs: number, gapMs: number): ClockSource {
  let now = startMs | 0;
  let started = false;

  function next(plan: ClockPlan, i: number, noise: Noise): number {
    if (!started) {
      started = true;
      return now;
    }
    let step = tickMs;
    if (plan === 'jittering') step = 1 + noise.below(2 * tickMs);
    else if (plan === 'late once' && i === 3) step = gapMs + 1 + noise.below(5000);
    else if (plan === 'still') step = 0;
    else if (plan === 'backwards') step = -noise.below(200);
    else if (plan === 'jumping') step = noise.below(4) === 0 ? noise.below(0x7fffffff) : tickMs;
    else if (plan === 'crawling') step = noise.below(2);
    else if (plan === 'any' && noise.below(3) === 0) {
      return ANY[noise.below(ANY.length)] as number;
    }
    now = (now + step) | 0;
    return plan === 'missing' ? (undefined as unknown as number) : now;
  }

  return { next };
}
