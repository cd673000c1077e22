import { type Constants, Flag, S, State, V } from '../../lib/index.ts';
import { count, createLimitLog, type Inapplicable, percent, short } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { createSlope, ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'Low supply derates, then stops, without chatter';
/** Derating is eased no faster than this, permille/s. */
const EASE_PER_S = 250;
const OTHERS = Flag.CURRENT_LIMIT | Flag.HEAT_LIMIT | Flag.SENSOR_LOST;

/** S9: low supply derates, then stops, without chatter. */
export function s09LowSupply({ vehicle }: Constants): LimitMonitor {
  const log = createLimitLog();
  const slope = createSlope();
  const fitted = vehicle[V.HAS_SUPPLY] === 1;
  const reference = vehicle[V.SUPPLY_REFERENCE_MV]!;
  const warn = vehicle[V.SUPPLY_WARN_MV]!;
  const low = vehicle[V.SUPPLY_LOW_MV]!;
  const floor = vehicle[V.SUPPLY_FLOOR]!;
  const recovered = warn + vehicle[V.SUPPLY_HYSTERESIS_MV]!;
  const cutMv = vehicle[V.SUPPLY_CUT_MV]!;
  let allowed = 1000;
  let cutFor = 0;
  let cut = false;
  let lowest = Infinity;
  let least = 1000;

  function derate(voltage: number, permitMs: number): void {
    let target = 1000;
    if (voltage <= low) target = floor;
    else if (voltage < warn) target = floor + ((1000 - floor) * (voltage - low)) / (warn - low);
    if (target < allowed) allowed = target;
    else if (voltage >= recovered) allowed = Math.min(1000, allowed + EASE_PER_S * permitMs * 1e-3);
    if (allowed < least) least = allowed;
  }

  function watchChatter(tick: Tick): void {
    const { before, outputs } = tick;
    const alone = ((before.flags | outputs.flags) & OTHERS) === 0;
    // A signal that was cut to an integer may seem to move by less than 1.
    const eased = outputs.limit - before.limit >= 1;
    if (alone && reference === 0 && eased && tick.supplyMv < recovered - ROUNDING) {
      log.breach(tick.atMs, 2, tick.supplyMv, recovered);
    }
  }

  function idle(): string | Inapplicable {
    if (!fitted) return { why: 'The vehicle has no supply sensor.' };
    if (lowest === Infinity) return 'The supply was never measured.';
    return `The supply never fell below ${short(lowest)} mV; derating begins at ${warn} mV.`;
  }

  function watch(tick: Tick): void {
    const voltage = tick.supplyMv;
    const state = tick.outputs.state;
    // The core sees this tick's sample after it has decided on this tick's state.
    if (cut && (state === State.READY || state === State.DRIVING)) {
      log.breach(tick.atMs, 1, voltage, cutMv);
    }
    if (!tick.supplyLost) {
      derate(voltage, tick.permitMs);
      watchChatter(tick);
      if (voltage < lowest) lowest = voltage;
      cutFor = voltage < cutMv - ROUNDING ? cutFor + tick.forbidMs : 0;
      cut = cutFor >= vehicle[V.SUPPLY_CUT_MS]!;
    }
    if (allowed < 1000 || cut) log.exercise(tick.atMs);
    const excess = slope.fall(tick.most, allowed, (tick.lo[S.STOP]! * tick.forbidMs) / 1000);
    if (excess > 0) log.breach(tick.atMs, 0, tick.most, allowed);
  }

  return {
    id: 'S9',
    title: TITLE,
    observe(tick) {
      if (fitted) watch(tick);
    },
    verdict: () =>
      log.verdict(
        'S9',
        TITLE,
        () =>
          `The supply was low for ${count(log.count, 'tick')}, at least ${short(lowest)} mV; ` +
          `the drive was derated to ${percent(least)} and held there without chatter.`,
        [
          (value, bound) => `A command was ${percent(value)}; the supply leaves ${percent(bound)}.`,
          (value, bound) => `The core drove on at ${value} mV, below the cut-off of ${bound} mV.`,
          (value, bound) => `Derating was eased at ${value} mV, below ${bound} mV.`,
        ],
        idle(),
      ),
  };
}
