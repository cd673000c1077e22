import { Cause, State } from '../../lib/index.ts';
import { count, createLimitLog } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import type { Tick } from './tick.ts';
import { LATCHING } from './watch.ts';

const TITLE = 'A latched fault clears only by re-arming';

/** S16: a latched fault clears only by re-arming; until then the drive is off. */
export function s16LatchedFault(): LimitMonitor {
  const log = createLimitLog();
  let latched = 0;
  let stillTicks = 0;
  let rearmed = 0;

  function watch(tick: Tick): void {
    const { state, cause, enable } = tick.outputs;
    if (latched >= Cause.BAD_CONSTANTS || !tick.justArmed) {
      if (state !== State.STOPPING && state !== State.FAULT) log.breach(tick.atMs, 0, latched, 0);
      else if (cause < LATCHING) log.breach(tick.atMs, 1, latched, 0);
      else if (stillTicks > 2 && (enable !== 0 || state !== State.FAULT)) {
        log.breach(tick.atMs, 2, stillTicks, 0);
      }
      return;
    }
    latched = 0;
    rearmed++;
  }

  return {
    id: 'S16',
    title: TITLE,
    observe(tick) {
      stillTicks = tick.most === 0 ? stillTicks + 1 : 0;
      if (latched !== 0) watch(tick);
      if (latched === 0 && tick.outputs.cause >= LATCHING) {
        latched = tick.outputs.cause;
        stillTicks = tick.most === 0 ? 1 : 0;
        log.exercise(tick.atMs);
      }
    },
    verdict: () =>
      log.verdict(
        'S16',
        TITLE,
        () => `${count(log.count, 'fault')} latched; ${rearmed} cleared, each by re-arming.`,
        [
          () => 'The core left a latched fault without re-arming.',
          () => 'The cause of a latched fault was forgotten without re-arming.',
          (value) => `The drive was still on ${value} ticks after a fault's standstill.`,
        ],
        'No fault latched.',
      ),
  };
}
