import { State } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';

const TITLE = 'An invalid or out-of-range channel counts as lost and is never interpreted';

/** S6: an invalid or out-of-range channel counts as lost; it is never interpreted. */
export function s06InvalidChannel(): LimitMonitor {
  const log = createLimitLog();

  return {
    id: 'S6',
    title: TITLE,
    observe(tick) {
      if (tick.valid) return;
      const { outputs, before } = tick;
      log.exercise(tick.atMs);
      const driving = outputs.state === State.READY || outputs.state === State.DRIVING;
      if (outputs.throttle !== before.throttle) {
        log.breach(tick.atMs, 0, before.throttle, outputs.throttle);
      } else if (outputs.demand !== 0 && outputs.demand !== before.throttle) {
        log.breach(tick.atMs, 1, outputs.demand, before.throttle);
      } else if (tick.lost && driving) log.breach(tick.atMs, 2, tick.staleMs, 0);
      else if (driving && before.state !== State.READY && before.state !== State.DRIVING) {
        log.breach(tick.atMs, 3, 0, 0);
      }
    },
    verdict: () =>
      log.verdict(
        'S6',
        TITLE,
        () => `${count(log.count, 'tick')} brought an invalid channel; none was acted on.`,
        [
          (value, bound) =>
            `An invalid pulse moved the throttle from ${percent(value)} to ${percent(bound)}.`,
          (value, bound) =>
            `With an invalid pulse the demand was ${percent(value)}, the ` +
            `held one ${percent(bound)}.`,
          (value) => `The core drove on ${value} ms after the last valid pulse.`,
          () => 'The core armed on an invalid channel.',
        ],
        'Every tick brought valid channels.',
      ),
  };
}
