import { State } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Nothing moves until a fresh neutral throttle has been held';

/**
 * S5: no motion after power-up, reset or fault until a fresh neutral throttle has been held. Once
 * it has, nothing moves either before the stick is seen to leave neutral.
 */
export function s05Arming(): LimitMonitor {
  const log = createLimitLog();
  let waiting = false;

  function watchLocked(tick: Tick): void {
    const { outputs, before } = tick;
    for (let i = 0; i < tick.motors; i++) {
      if (Math.abs(outputs.drive[i]!) > Math.abs(before.drive[i]!)) {
        log.breach(tick.atMs, 0, outputs.drive[i]!, 0);
        return;
      }
    }
    const stopping = outputs.state === State.STOPPING && before.enable === 1;
    if (outputs.enable !== 0 && !stopping) log.breach(tick.atMs, 1, 0, 0);
  }

  return {
    id: 'S5',
    title: TITLE,
    observe(tick) {
      if (tick.justArmed) {
        waiting = true;
        log.exercise(tick.atMs);
      }
      if (tick.valid && !tick.surelyNeutral) waiting = false;
      if (!tick.armed) watchLocked(tick);
      else if (waiting && tick.most > 0) log.breach(tick.atMs, 2, tick.most, 0);
    },
    verdict: () =>
      log.verdict(
        'S5',
        TITLE,
        () => `Armed ${count(log.count, 'time')}, each after a neutral throttle was held.`,
        [
          (value) => `A motor moved to ${percent(value)} without a held neutral throttle before.`,
          () => 'The drive was switched on without a held neutral throttle before.',
          (value) =>
            `A motor moved at ${percent(value)} with the stick still in neutral after arming.`,
        ],
        'The vehicle never armed.',
      ),
  };
}
