import { MISSING } from '../../lib/index.ts';

/**
 * The two durations of a tick that limit S7 allows a core to act on, derived from the time stamps:
 * on an odd stamp nothing is permitted and a nominal tick forbids; after a gap no more than two
 * nominal ticks are permitted and no more than the gap time forbids.
 */
export interface TimeView {
  permitMs: number;
  forbidMs: number;
  odd: boolean;
  /** Ticks too far apart, or the clock odd for too long. */
  timeLost: boolean;
  /** By how much the run's clock ran forward, ms. */
  forwardMs: number;
  step(timeMs: number): void;
}

/** @param tickMs nominal time between ticks; @param gapMs longest gap that is no loss of signal */
export function createTimeView(tickMs: number, gapMs: number): TimeView {
  let first = true;
  let last = 0;
  let oddFor = 0;
  const view = { permitMs: 0, forbidMs: tickMs, odd: false, timeLost: false, forwardMs: 0, step };

  function step(timeMs: number): void {
    const elapsed = first || timeMs === MISSING ? 0 : (timeMs - last) | 0;
    if (timeMs !== MISSING) last = timeMs;
    view.forwardMs = Math.max(elapsed, 0);
    if (elapsed > 0) {
      oddFor = 0;
      view.odd = false;
      view.permitMs = Math.min(elapsed, 2 * tickMs);
      view.forbidMs = Math.min(elapsed, gapMs);
      view.timeLost = elapsed > gapMs;
    } else {
      oddFor += tickMs;
      view.odd = !first;
      view.permitMs = 0;
      view.forbidMs = tickMs;
      view.timeLost = oddFor > gapMs;
    }
    first = false;
  }

  return view;
}
