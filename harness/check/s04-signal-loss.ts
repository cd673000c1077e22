import { S } from '../../lib/index.ts';
import { count, createLimitLog, percent, short } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { createSlope, FREE } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Without fresh input motion ends within hold and stop time, and stays ended';

/** S4: no fresh input: motion ends within holdMs + stop time, and stays ended until re-armed. */
export function s04SignalLoss(): LimitMonitor {
  const log = createLimitLog();
  const slope = createSlope();
  let ending = true;
  let wasArmed = false;
  let stillTicks = 0;
  let moving = false;
  let longestMs = 0;
  let allowedMs = 0;
  let worstMs = 0;

  function begin(tick: Tick): void {
    ending = true;
    stillTicks = 0;
    if (!wasArmed) return;
    log.exercise(tick.atMs);
    moving = tick.mostBefore > 0;
    allowedMs = tick.hi[S.HOLD_MS]! + ((tick.mostBefore + 1) * 1000) / tick.lo[S.STOP]!;
  }

  function measure(tick: Tick): void {
    if (!moving || tick.most > 0) return;
    moving = false;
    // After a gap between ticks the age says nothing of the stop.
    if (tick.timeLost || tick.staleMs < longestMs) return;
    longestMs = tick.staleMs;
    worstMs = allowedMs + tick.forbidMs;
  }

  return {
    id: 'S4',
    title: TITLE,
    observe(tick) {
      if (tick.lost && !ending) begin(tick);
      else if (tick.armed) ending = false;
      if (ending) measure(tick);
      const down = (tick.lo[S.STOP]! * tick.forbidMs) / 1000;
      stillTicks = tick.most === 0 ? stillTicks + 1 : 0;
      const excess = slope.fall(tick.most, ending ? 0 : FREE, down);
      if (excess > 0) log.breach(tick.atMs, tick.most > tick.mostBefore ? 0 : 1, tick.most, down);
      else if (ending && stillTicks > 2 && tick.outputs.enable !== 0) {
        log.breach(tick.atMs, 2, stillTicks, 0);
      }
      wasArmed = tick.armed;
    },
    verdict: () =>
      log.verdict(
        'S4',
        TITLE,
        () =>
          `${count(log.count, 'loss', 'losses')} of signal` +
          (longestMs > 0
            ? `; the longest took ${short(longestMs)} ms from the last fresh input to standstill ` +
              `of ${short(worstMs)} ms allowed.`
            : '; the vehicle stood still or stopped at once.'),
        [
          (value) => `With the signal lost and not re-armed, a motor rose to ${percent(value)}.`,
          (value, bound) =>
            `With the signal lost a motor was still at ${percent(value)}, ` +
            `though the stop rate takes off ${percent(bound)} a tick.`,
          (value) => `The drive was still on ${value} ticks after the standstill.`,
        ],
        'The signal was never lost while the vehicle was armed.',
      ),
  };
}
