import { type Constants, S, V } from '../../lib/index.ts';
import { count, createLimitLog, percent, short } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'A motor changes direction only after it has rested at zero';

/** S3: no sign change without passing zero and dwelling there. */
export function s03Reversal({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const gateTicks = vehicle[V.GATE_DWELL]! + 1;
  const direction = new Float64Array(4);
  const restMs = new Float64Array(4);
  const restTicks = new Float64Array(4);
  // Least dwell in force since a motor came to zero: the gate may hold it there for longer than
  // the setup that let it go was in force.
  const owed = new Float64Array(4);
  let shortest = Infinity;

  function watch(tick: Tick, i: number): void {
    const now = tick.outputs.drive[i]!;
    if (now === 0) {
      const dwell = tick.lo[S.DWELL_MS]!;
      if (restTicks[i]! > 0) restMs[i]! += tick.permitMs;
      if (restTicks[i] === 0 || dwell < owed[i]!) owed[i] = dwell;
      restTicks[i]!++;
      return;
    }
    const sign = now > 0 ? 1 : -1;
    if (direction[i] !== 0 && sign !== direction[i]) {
      const rest = restTicks[i]! > 0 ? restMs[i]! + tick.permitMs : 0;
      log.exercise(tick.atMs);
      if (rest < shortest) shortest = rest;
      if (restTicks[i] === 0) log.breach(tick.atMs, 0, tick.before.drive[i]!, now);
      else if (rest < Math.min(owed[i]!, tick.lo[S.DWELL_MS]!) - ROUNDING) {
        log.breach(tick.atMs, 1, rest, Math.min(owed[i]!, tick.lo[S.DWELL_MS]!));
      } else if (restTicks[i]! < gateTicks) log.breach(tick.atMs, 2, restTicks[i]!, gateTicks);
    }
    direction[i] = sign;
    restMs[i] = 0;
    restTicks[i] = 0;
  }

  return {
    id: 'S3',
    title: TITLE,
    observe(tick) {
      for (let i = 0; i < tick.motors; i++) watch(tick, i);
    },
    verdict: () =>
      log.verdict(
        'S3',
        TITLE,
        () =>
          `Motors changed direction ${count(log.count, 'time')}; ` +
          `the shortest rest at zero was ${short(shortest)} ms.`,
        [
          (value, bound) => `A motor went from ${percent(value)} to ${percent(bound)} in one tick.`,
          (value, bound) => `A motor changed direction after ${value} ms at zero, not ${bound} ms.`,
          (value, bound) => `A motor changed direction after ${value} ticks at zero, not ${bound}.`,
        ],
        'No motor changed its direction.',
      ),
  };
}
