import { Reaction } from '../../lib/codes.ts';
import { S } from '../../lib/constants.ts';
import { type Row, scaled } from './baked-row.ts';
import type { Setup, Vehicle } from './records.ts';
import { intervalFor, solveCusum } from './solve-cusum.ts';

/** What is told from currents: nothing where none are measured. */
export function findingRows({ tickMs, sensors }: Vehicle, { traction }: Setup): Row[] {
  const findings = (['spin', 'free', 'jam'] as const).map((name, i) => {
    const { reaction, findWithinMs, falseAlarmsPerHour } = traction[name];
    const falseTicks = 3_600_000 / tickMs / falseAlarmsPerHour;
    const best = solveCusum(Math.max(findWithinMs / tickMs, LEAST_TICKS), falseTicks);
    const k = best.k * SHARE[name];
    const h = intervalFor(k, falseTicks) * marginOf(name, tickMs);
    const code = sensors.current ? REACTIONS[reaction] : Reaction.OFF;
    return [
      scaled(S.SPIN_REACTION + i, `traction.${name}.reaction`, code, 1),
      scaled(S.SPIN_K + 2 * i, `traction.${name}.findWithinMs`, k, 100),
      scaled(S.SPIN_H + 2 * i, `traction.${name}.falseAlarmsPerHour`, Math.min(h, MOST_H), 100),
    ];
  });
  return [
    ...findings.flat(),
    scaled(S.FOUND_HOLD_MS, 'traction.holdMs', traction.holdMs, 1),
    scaled(S.TRIM, 'traction.trimPercent', traction.trimPercent, 10),
    scaled(S.LIMP_CAP, 'traction.limpCapPercent', traction.limpCapPercent, 10),
    scaled(S.RAMP_MS, 'traction.rampMs', traction.rampMs, 1),
  ];
}

const REACTIONS = {
  off: Reaction.OFF,
  report: Reaction.REPORT,
  trim: Reaction.TRIM,
  cut: Reaction.RAMP,
  limp: Reaction.LIMP,
  stop: Reaction.STOP,
};

/**
 * Of the reference value that is best for a lasting shift: wheels let go by and by, and half of it
 * tells more of them with as few false alarms. Chosen in the study, on other seeds than it reports.
 */
const SHARE = { spin: 1 / 2, free: 1, jam: 1 };
/**
 * Over Siegmund's threshold: his samples are independent, while what the constants are wrong by
 * stays from tick to tick: the more of them, the shorter they are. Chosen likewise, of ticks of 10
 * and 20 ms: the margin at 20 ms, and the power of the rate of ticks by which it grows beyond that.
 */
const MARGIN = { spin: 1, free: 4.5, jam: 1.8 };
const GROWS = { spin: 0.6, free: 0, jam: 0.15 };
const LONG_TICK_MS = 20;
/** The core takes no more: with a millisecond's tick and the calmest words, no sooner than s. */
const MOST_H = 320;
/** Fewer samples tell nothing. */
const LEAST_TICKS = 2;

function marginOf(name: keyof typeof MARGIN, tickMs: number): number {
  return MARGIN[name] * Math.max(1, LONG_TICK_MS / tickMs) ** GROWS[name];
}
