import { type Constants, MISSING, S, State, V } from '../../lib/index.ts';
import { count, createLimitLog, type Inapplicable, percent, short } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { createMotorView } from './motor-view.ts';
import { createSlope, FREE } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE =
  "Commanded current and heat stay under the motor's budget; a stalled motor is off in time";
const BROKEN = [
  (value: string, bound: string) =>
    `A command was ${percent(value)}; its current ceiling is at ${percent(bound)}.`,
  (value: string, bound: string) => `Stall current flowed for ${value} ms of ${bound} ms allowed.`,
  (value: string, bound: string) => `A winding rose by ${value} K; ${bound} K must stop the drive.`,
  (value: string, bound: string) =>
    `A command was ${percent(value)}; winding heat leaves ${percent(bound)}.`,
];

/**
 * S8: commanded current and heat stay under the motor's budget; a stalled motor is off within its
 * time. A command above its budget must fall at the stop rate, in proportion to the greatest one.
 */
export function s08MotorBudget(constants: Constants): LimitMonitor {
  const vehicle = constants.vehicle;
  const log = createLimitLog();
  const fitted = vehicle[V.HAS_CURRENT] === 1;
  const views = [0, 1, 2, 3].map(() => createMotorView(constants));
  const slopes = [0, 1, 2, 3].map(createSlope);
  const heatSlope = createSlope();
  const stallMs = vehicle[V.STALL_MS]! > 0 ? vehicle[V.STALL_MS]! : Infinity;
  const warn = vehicle[V.HEAT_WARN_K]!;
  const limit = vehicle[V.HEAT_LIMIT_K]!;
  let stalled = false;
  let hot = false;
  const seen: Seen = { driven: false, measured: false, ceilings: 0, longestStall: 0, hottest: 0 };

  /** Faults that the tick before showed: by this tick the core must be stopping. */
  function watchFaults(tick: Tick): void {
    const state = tick.outputs.state;
    const driving = state === State.READY || state === State.DRIVING;
    if (stalled && driving) log.breach(tick.atMs, 1, seen.longestStall, stallMs);
    if (hot && driving) log.breach(tick.atMs, 2, seen.hottest, limit);
  }

  function watchMotor(tick: Tick, i: number, down: number): void {
    const view = views[i]!;
    const now = tick.outputs.drive[i]!;
    if (now !== 0) seen.driven = true;
    if (tick.inputs.currentMa[i] !== MISSING) seen.measured = true;
    const last = tick.before.drive[i]!;
    view.step(tick.inputs.currentMa[i]!, last, now, tick.supplyMv, tick.forbidMs);
    const same = last === 0 || now > 0 === last > 0;
    const magnitude = Math.abs(now);
    const share = Math.abs(last) / (tick.mostBefore + 1);
    const bound = same ? view.ceiling : FREE;
    if (bound < 1000 && tick.armed) {
      seen.ceilings++;
      log.exercise(tick.atMs);
    }
    const excess = slopes[i]!.fall(magnitude, bound, down * share);
    if (excess > 0) log.breach(tick.atMs, 0, magnitude, bound);
    if (view.stalledMs > seen.longestStall) seen.longestStall = view.stalledMs;
    if (view.windingK > seen.hottest) seen.hottest = view.windingK;
  }

  function watchBudgets(tick: Tick): void {
    stalled = false;
    hot = false;
    let heat = 1000;
    for (let i = 0; i < tick.motors; i++) {
      const { stalledMs, windingK } = views[i]!;
      if (stalledMs >= stallMs) stalled = true;
      if (windingK >= limit) hot = true;
      if (windingK > warn) heat = Math.min(heat, ((limit - windingK) * 1000) / (limit - warn));
    }
    if (stalled || hot || heat < 1000) log.exercise(tick.atMs);
    if (heat >= 1000) heat = FREE;
    const down = (tick.lo[S.STOP]! * tick.forbidMs) / 1000;
    const excess = heatSlope.fall(tick.most, Math.max(0, heat), down);
    if (excess > 0) log.breach(tick.atMs, 3, tick.most, heat);
  }

  return {
    id: 'S8',
    title: TITLE,
    observe(tick) {
      if (!fitted) return;
      watchFaults(tick);
      const down = (tick.lo[S.STOP]! * tick.forbidMs) / 1000;
      for (let i = 0; i < tick.motors; i++) watchMotor(tick, i, down);
      watchBudgets(tick);
    },
    verdict: () =>
      log.verdict('S8', TITLE, () => heldText(seen, limit), BROKEN, idleText(vehicle, seen)),
  };
}

/** What a run showed. */
interface Seen {
  driven: boolean;
  measured: boolean;
  /** How often the ceiling of a motor lay below full command. */
  ceilings: number;
  /** Longest time of stall current, ms. */
  longestStall: number;
  /** Greatest rise of a winding, K. */
  hottest: number;
}

function heldText({ ceilings, longestStall, hottest }: Seen, limit: number): string {
  return (
    `The current ceiling lay below full command ${count(ceilings, 'time')}; ` +
    `stall current flowed for ${short(longestStall)} ms at most; ` +
    `the hottest winding rose by ${short(hottest)} K of ${limit} K.`
  );
}

function idleText(vehicle: readonly number[], seen: Seen): string | Inapplicable {
  if (vehicle[V.HAS_CURRENT] !== 1) {
    return { why: 'Without current sensors nothing bounds current or heat, or ends a stall.' };
  }
  const guards = [V.CURRENT_LIMIT_MA, V.STALL_MS, V.WINDING_MJ_K];
  if (guards.every((guard) => vehicle[guard] === 0)) {
    return { why: 'The vehicle has no current ceiling, no stall time and no heat model.' };
  }
  if (!seen.driven) return 'No motor was driven.';
  if (!seen.measured) return 'No current was measured.';
  return (
    'The drive was too gentle: no current ceiling came below full command, ' +
    `stall current flowed for ${short(seen.longestStall)} ms at most, ` +
    `and the hottest winding rose by ${short(seen.hottest)} K of ${vehicle[V.HEAT_LIMIT_K]} K.`
  );
}
