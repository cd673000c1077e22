import { type Constants, Flag, MISSING, S, V } from '../../lib/index.ts';
import { count, createLimitLog, short } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { createSlope, FREE } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'A lost sensor removes its function and adds no risk';

/** S13: while a sensor the vehicle has gives no sample, the drive stays under the blind cap. */
export function s13LostSensor({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const slope = createSlope();
  const cap = vehicle[V.BLIND_CAP]!;
  const supply = vehicle[V.HAS_SUPPLY] === 1;
  const current = vehicle[V.HAS_CURRENT] === 1;
  let greatest = 0;

  function blind({ inputs, motors }: Tick): boolean {
    if (supply && !(inputs.batteryMv >= 0)) return true;
    if (!current) return false;
    for (let i = 0; i < motors; i++) if (inputs.currentMa[i] === MISSING) return true;
    return false;
  }

  return {
    id: 'S13',
    title: TITLE,
    observe(tick) {
      const lost = blind(tick);
      const down = (tick.lo[S.STOP]! * tick.forbidMs) / 1000;
      const excess = slope.fall(tick.most, lost ? cap : FREE, down);
      if (!lost) return;
      if (tick.armed) log.exercise(tick.atMs);
      if (tick.most > greatest) greatest = tick.most;
      if (excess > 0) log.breach(tick.atMs, 0, tick.most, cap);
      else if ((tick.outputs.flags & Flag.SENSOR_LOST) === 0) log.breach(tick.atMs, 1, 0, 0);
    },
    verdict: () =>
      log.verdict(
        'S13',
        TITLE,
        () =>
          `A sensor gave no sample in ${count(log.count, 'armed tick')}; the greatest command ` +
          `then was ${short(greatest)} ‰, and the blind cap is ${cap} ‰.`,
        [
          (value, bound) =>
            `Without a sensor a command was ${value} ‰; the blind cap is ${bound} ‰.`,
          () => 'A sensor gave no sample and the core did not report it.',
        ],
      ),
  };
}
