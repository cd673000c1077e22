import { type Constants, S, State, V } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'A clock that stands still, jumps or runs backwards makes no output jump';

/**
 * S7: clock standing still, jumping or running backwards causes no jump in any output; a long gap
 * is a signal loss.
 */
export function s07OddClock({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const usual = 2 * vehicle[V.TICK_MS]!;
  let started = false;

  function watchMotor(tick: Tick, i: number): void {
    const now = tick.outputs.drive[i]!;
    const last = tick.before.drive[i]!;
    const rise = Math.abs(now) - Math.abs(last);
    const up = (tick.hi[S.RISE]! * tick.permitMs) / 1000;
    const down = (tick.hi[S.STOP]! * tick.forbidMs) / 1000;
    if (rise > up + 1 + ROUNDING) log.breach(tick.atMs, 0, rise, up);
    else if (0 - rise > down + 1 + ROUNDING) {
      // The guest cap may take effect at once.
      const capped = tick.inputs.guest !== 0 && Math.abs(now) >= Math.floor(tick.lo[S.GUEST_CAP]!);
      if (!capped) log.breach(tick.atMs, 1, 0 - rise, down);
    }
  }

  return {
    id: 'S7',
    title: TITLE,
    observe(tick) {
      const { outputs, before } = tick;
      const strange = started && (tick.odd || tick.timeLost || tick.forbidMs > usual);
      started = true;
      if (!strange) return;
      log.exercise(tick.atMs);
      for (let i = 0; i < tick.motors; i++) watchMotor(tick, i);
      const turn = Math.abs(outputs.steer - before.steer);
      const most = (tick.hi[S.STEER_RATE]! * tick.permitMs) / 1000;
      const jumped = most > 0 ? turn > most + 1 + ROUNDING : turn > 0;
      if (jumped) log.breach(tick.atMs, 2, turn, most);
      else if (
        tick.timeLost &&
        (outputs.state === State.READY || outputs.state === State.DRIVING)
      ) {
        log.breach(tick.atMs, 3, 0, 0);
      }
    },
    verdict: () =>
      log.verdict(
        'S7',
        TITLE,
        () => `${count(log.count, 'tick')} had an odd time stamp; no output jumped.`,
        [
          (value, bound) =>
            `A motor rose by ${percent(value)} on an odd time stamp; ${percent(bound)} is allowed.`,
          (value, bound) =>
            `A motor fell by ${percent(value)} on an odd time stamp; ${percent(bound)} is allowed.`,
          (value, bound) =>
            `The steering moved by ${percent(value)} on an odd time stamp; ` +
            `${percent(bound)} is allowed.`,
          () => 'The core drove on after a gap in time.',
        ],
        'Every tick came in time.',
      ),
  };
}
