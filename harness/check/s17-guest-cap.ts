import { S } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';

const TITLE = 'The reduced-power cap for guests and children holds in every state';

/** S17: a reduced-power cap for guests and children holds in every state. */
export function s17GuestCap(): LimitMonitor {
  const log = createLimitLog();
  let greatest = 0;

  return {
    id: 'S17',
    title: TITLE,
    observe(tick) {
      if (tick.inputs.guest === 0) return;
      const cap = tick.hi[S.GUEST_CAP]!;
      if (tick.armed) log.exercise(tick.atMs);
      if (tick.most > greatest) greatest = tick.most;
      if (tick.most > cap + ROUNDING) log.breach(tick.atMs, 0, tick.most, cap);
      else log.keep(cap - tick.most);
    },
    verdict: () =>
      log.verdict(
        'S17',
        TITLE,
        () =>
          `The cap was on for ${count(log.count, 'armed tick')}; ` +
          `the greatest command was ${percent(greatest)}, ${percent(log.margin)} under it.`,
        [
          (value, bound) =>
            `A command was ${percent(value)} with the guest cap of ${percent(bound)} on.`,
        ],
        'The guest cap was never on.',
      ),
  };
}
