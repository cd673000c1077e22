import { count, createLimitLog } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';

const TITLE = 'A tick never throws';

/** A monitor that also hears of what a step threw. */
export interface NoThrowMonitor extends LimitMonitor {
  /** @param atMs run time of the tick before */
  threw(atMs: number, error: unknown): void;
}

/**
 * S15, as far as a run can show it: step() never throws. That it never allocates and has no
 * data-dependent loop is shown on its source, in tests/limits/s15.test.ts.
 */
export function s15NoThrow(): NoThrowMonitor {
  const log = createLimitLog();
  let first = '';

  return {
    id: 'S15',
    title: TITLE,
    observe: ({ atMs }) => log.exercise(atMs),
    threw(atMs, error) {
      if (log.breaches === 0) first = error instanceof Error ? error.message : String(error);
      log.breach(atMs, 0, 0, 0);
    },
    verdict: () =>
      log.verdict(
        'S15',
        TITLE,
        () => `${count(log.count, 'tick')} ran without an exception.`,
        [() => `A tick threw: ${first}.`],
        'There was no tick.',
      ),
  };
}
