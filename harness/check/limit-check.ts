import type { Constants, Controller, Inputs, Outputs } from '../../lib/index.ts';
import type { LimitMonitor, LimitVerdict } from './limit-monitor.ts';
import { s01OutputsInRange } from './s01-outputs-in-range.ts';
import { s02Slopes } from './s02-slopes.ts';
import { s03Reversal } from './s03-reversal.ts';
import { s04SignalLoss } from './s04-signal-loss.ts';
import { s05Arming } from './s05-arming.ts';
import { s06InvalidChannel } from './s06-invalid-channel.ts';
import { s07OddClock } from './s07-odd-clock.ts';
import { s08MotorBudget } from './s08-motor-budget.ts';
import { s09LowSupply } from './s09-low-supply.ts';
import { s10Split } from './s10-split.ts';
import { s11Mirror } from './s11-mirror.ts';
import { s12OnlyLower } from './s12-only-lower.ts';
import { s13LostSensor } from './s13-lost-sensor.ts';
import { s14SetupChange } from './s14-setup-change.ts';
import { s15NoThrow } from './s15-no-throw.ts';
import { s16LatchedFault } from './s16-latched-fault.ts';
import { s17GuestCap } from './s17-guest-cap.ts';
import { createWatch } from './watch.ts';

/** Judges a run by all safety limits, tick by tick; memory does not grow with the run. */
export interface LimitCheck {
  /**
   * Takes the next tick, after `step`.
   *
   * @param inputs as `step` left them, or at least integers or MISSING in every field
   * @param outputs what `step` filled; the four unrounded signals may be cut to integers
   */
  observe(inputs: Inputs, outputs: Outputs): void;
  /** Takes what was offered to `offerSetup` before the next tick, and what that returned. */
  offered(slot: number, setup: readonly number[], crc: number, accepted: number): void;
  /** Takes what `step` threw instead of ending. */
  threw(error: unknown): void;
  /** What the run has shown so far, S1 to S17. */
  verdicts(): LimitVerdict[];
}

/** Number of the limits, without the S. */
export type LimitNumber = (typeof LIMITS)[number];

/** All limits there are. */
export const LIMITS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17] as const;

/**
 * @param constants those the core drives with; must pass its loader
 * @param createController of the core that is watched: S11 steps a mirrored twin of it
 * @param limits which limits to judge; left out = all
 */
export function createLimitCheck(
  constants: Constants,
  createController: (constants: Constants) => Controller,
  limits: readonly LimitNumber[] = LIMITS,
): LimitCheck {
  const watch = createWatch(constants);
  const wanted = new Set<number>(limits);
  const change = s14SetupChange(constants);
  const noThrow = s15NoThrow();
  const mirror = wanted.has(11) ? s11Mirror(createController, constants) : undefined;
  const monitors: LimitMonitor[] = [
    s01OutputsInRange(constants),
    s02Slopes(constants),
    s03Reversal(constants),
    s04SignalLoss(),
    s05Arming(),
    s06InvalidChannel(),
    s07OddClock(constants),
    s08MotorBudget(constants),
    s09LowSupply(constants),
    s10Split(constants),
    ...(mirror ? [mirror] : []),
    s12OnlyLower(constants),
    s13LostSensor(constants),
    change,
    noThrow,
    s16LatchedFault(),
    s17GuestCap(),
  ].filter(({ id }) => wanted.has(Number(id.slice(1))));
  let atMs = 0;

  return {
    observe(inputs, outputs) {
      const tick = watch.observe(inputs, outputs);
      atMs = tick.atMs;
      for (let i = 0; i < monitors.length; i++) monitors[i]!.observe(tick);
    },
    offered(slot, setup, crc, accepted) {
      change.offered(atMs, slot, setup, crc, accepted);
      if (accepted !== 1) return;
      watch.put(slot, setup);
      mirror?.put(slot, setup);
    },
    threw: (error) => noThrow.threw(atMs, error),
    verdicts: () => monitors.map((monitor) => monitor.verdict()),
  };
}
