import { type Constants, Layout, S, TABLE_POINTS, V } from '../../lib/index.ts';
import { count, createLimitLog, short } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Protection only ever lowers a command';

/**
 * S12: traction and protection only lower a magnitude. A command may rise no higher than the split
 * of the demand asks for, times the share that protection reports to leave.
 */
export function s12OnlyLower({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const pivots = vehicle[V.LAYOUT] === Layout.TRACKED;
  const fronts = vehicle.slice(V.FRONT_INSIDE, V.FRONT_INSIDE + 2 * TABLE_POINTS);
  const front = Math.max(...fronts) / 10000;
  let least = 1000;

  /** The signals may be cut to integers, so each is taken one up. */
  function asked(tick: Tick): number {
    const { demand, cut, steer } = tick.outputs;
    const shared = (Math.min(1000, Math.max(0, cut) + 1) * tick.hi[S.MEAN_SHARE]!) / 2000;
    const outside = ((Math.abs(demand) + 1) * 1000) / (1000 - shared);
    const pivot = pivots ? (tick.hi[S.PIVOT]! * (Math.abs(steer) + 1)) / 1000 : 0;
    return outside + pivot;
  }

  function watchMotor(tick: Tick, i: number, rear: number): void {
    const now = Math.abs(tick.outputs.drive[i]!);
    if (now <= Math.abs(tick.before.drive[i]!)) return;
    const ask = i < 2 ? rear : (rear * front * tick.hi[S.FRONT_SHARE]!) / 1000;
    const bound = (Math.min(ask, 1000) * (tick.outputs.limit + 1)) / 1000;
    if (now > bound + ROUNDING) log.breach(tick.atMs, 0, now, bound);
  }

  return {
    id: 'S12',
    title: TITLE,
    observe(tick) {
      const { demand, limit } = tick.outputs;
      const end = demand < 0 ? tick.hi[S.REVERSE_LIMIT]! : tick.hi[S.FORWARD_LIMIT]!;
      if (limit < 1000 && tick.armed) log.exercise(tick.atMs);
      if (limit < least) least = limit;
      if (limit > 1000 + ROUNDING) log.breach(tick.atMs, 1, limit, 1000);
      // A setup that is faded out may have let the stick further than one in force now.
      if (Math.abs(demand) > end + ROUNDING && !tick.fading && tick.valid) smoothedOut(tick, end);
      const rear = asked(tick);
      for (let i = 0; i < tick.motors; i++) watchMotor(tick, i, rear);
    },
    verdict: () =>
      log.verdict(
        'S12',
        TITLE,
        () =>
          `Protection was at work for ${count(log.count, 'tick')} ` +
          `and left ${short(least)} ‰ at least; it never raised a command.`,
        [
          (value, bound) => `A command rose to ${value} ‰; split and protection leave ${bound} ‰.`,
          (value) => `Protection reported to leave ${value} ‰ of the commands.`,
          (value, bound) => `The demand was ${value} ‰; the stick's end limit is ${bound} ‰.`,
        ],
      ),
  };

  /** With a low-pass the demand of a setup before dies away; it may not rise beyond the limit. */
  function smoothedOut(tick: Tick, end: number): void {
    const { demand } = tick.outputs;
    if (Math.abs(demand) > Math.abs(tick.before.demand) + ROUNDING) {
      log.breach(tick.atMs, 2, demand, end);
    }
  }
}
