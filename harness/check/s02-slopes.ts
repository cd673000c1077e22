import { type Constants, S, State, V } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { createSlope, FREE, ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Motors rise no faster than the setup and the gate allow, and stop at least as fast';

/** S2: a rise in magnitude never beats the slew ceiling; a stop is never slower than its rate. */
export function s02Slopes({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const gateRise = vehicle[V.GATE_RISE]!;
  const rises = [createSlope(), createSlope(), createSlope(), createSlope()];
  const stop = createSlope();
  let steepest = 0;

  function watchRise(tick: Tick, i: number): void {
    const now = tick.outputs.drive[i]!;
    const last = tick.before.drive[i]!;
    const magnitude = Math.abs(now);
    // From the other direction a rise begins at zero.
    const rise = magnitude - (now > 0 === last > 0 ? Math.abs(last) : 0);
    const up = (tick.hi[S.RISE]! * tick.permitMs) / 1000;
    if (rise > 0) {
      log.exercise(tick.atMs);
      log.keep(up - rise);
      if (rise > steepest) steepest = rise;
    }
    if (rises[i]!.rise(magnitude, up) > 0) log.breach(tick.atMs, 0, rise, up);
    else if (rise > gateRise + ROUNDING) log.breach(tick.atMs, 1, rise, gateRise);
  }

  return {
    id: 'S2',
    title: TITLE,
    observe(tick) {
      for (let i = 0; i < tick.motors; i++) watchRise(tick, i);
      const state = tick.outputs.state;
      const free = state === State.READY || state === State.DRIVING;
      const down = (tick.lo[S.STOP]! * tick.forbidMs) / 1000;
      if (!free && tick.mostBefore > 0) log.exercise(tick.atMs);
      const excess = stop.fall(tick.most, free ? FREE : 0, down);
      if (excess > 0) log.breach(tick.atMs, 2, tick.mostBefore - tick.most, down);
    },
    verdict: () =>
      log.verdict(
        'S2',
        TITLE,
        () =>
          `A command rose or was stopped ${count(log.count, 'time')}; ` +
          `the steepest rise was ${percent(steepest)} in a tick.`,
        [
          (value, bound) =>
            `A motor rose by ${percent(value)} in a tick that allowed ${percent(bound)}.`,
          (value, bound) =>
            `A motor rose by ${percent(value)} in a tick; the gate allows ${percent(bound)}.`,
          (value, bound) =>
            `In a stop the motors fell by ${percent(value)} in a tick, not by ${percent(bound)}.`,
        ],
        'No motor was driven.',
      ),
  };
}
