import { Cause } from './codes.ts';
import { MISSING } from './signals.ts';

/**
 * Turns time stamps into two durations, so that an odd clock can only make the core more careful:
 * `rise` is time that permits (commands may grow, timers that arm may run), `stop` is time that
 * forbids (stops, timers that end a drive).
 */
export interface Clock {
  /** Time that permits, ms; 0 on an odd clock, at most two nominal ticks. */
  rise: number;
  /** Time that forbids, ms; a nominal tick on an odd clock, at most the gap time. */
  stop: number;
  /** Cause.TICK_GAP or Cause.CLOCK_STUCK in a tick where time is lost, else Cause.NONE. */
  fault: number;
  /** 1 if this tick's time stamp was missing, repeated or ran backwards. */
  odd: number;
  /** @param timeMs this tick's time stamp, 32-bit ms, or MISSING */
  run(timeMs: number): void;
}

/**
 * @param tickMs nominal time between ticks, ms
 * @param gapMs longer than this between ticks, or on an odd clock, is a loss of signal, ms
 */
export function createClock(tickMs: number, gapMs: number): Clock {
  const most = 2 * tickMs;
  let last = 0;
  let started = 0;
  let stuck = 0;
  const clock = { rise: 0, stop: tickMs, fault: Cause.NONE as number, odd: 0, run: run };

  function run(timeMs: number): void {
    // The difference of two 32-bit counts stays right across their wrap.
    const elapsed = started === 0 || timeMs === MISSING ? 0 : (timeMs - last) | 0;
    if (timeMs !== MISSING) last = timeMs;
    const self = clock;
    let cause: number = Cause.NONE;
    if (elapsed > 0) {
      stuck = 0;
      if (elapsed > gapMs) cause = Cause.TICK_GAP;
      self.odd = 0;
      self.rise = elapsed > most ? most : elapsed;
      self.stop = elapsed > gapMs ? gapMs : elapsed;
    } else {
      stuck += tickMs;
      if (stuck > gapMs) cause = Cause.CLOCK_STUCK;
      self.odd = started;
      self.rise = 0;
      self.stop = tickMs;
      started = 1;
    }
    self.fault = cause;
  }

  return clock;
}
