import { type Constants, Flag, S } from '../../lib/index.ts';
import { count, createLimitLog, percent } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { setupFits } from './setup-fits.ts';
import { ROUNDING } from './slope.ts';
import type { Tick } from './tick.ts';

const TITLE = 'A setup change is checked and bumpless; an invalid setup is never loaded';

/** A monitor that also hears of what was offered to `offerSetup`. */
export interface SetupChangeMonitor extends LimitMonitor {
  /**
   * @param atMs run time of the tick before
   * @param accepted what `offerSetup` returned
   */
  offered(atMs: number, slot: number, setup: unknown, crc: number, accepted: number): void;
}

/** S14: a setup change is validated, bumpless, and an invalid setup is never loaded. */
export function s14SetupChange(constants: Constants): SetupChangeMonitor {
  const log = createLimitLog();
  const slots = constants.setups.length;
  const idle = slots > 1 ? 'The setup was never changed.' : 'One setup alone is on board.';
  let refused = false;
  let refusals = 0;

  function watchMotor(tick: Tick, i: number): void {
    const now = Math.abs(tick.outputs.drive[i]!);
    const change = now - Math.abs(tick.before.drive[i]!);
    const up = (tick.hi[S.RISE]! * tick.permitMs) / 1000;
    const down = (tick.hi[S.STOP]! * tick.forbidMs) / 1000;
    if (change > up + 1 + ROUNDING) log.breach(tick.atMs, 0, change, up);
    else if (0 - change > down + 1 + ROUNDING) {
      const capped = tick.inputs.guest !== 0 && now >= Math.floor(tick.lo[S.GUEST_CAP]!);
      if (!capped) log.breach(tick.atMs, 0, change, down);
    }
  }

  return {
    id: 'S14',
    title: TITLE,
    observe(tick) {
      const { outputs, before } = tick;
      const flagged = (outputs.flags & Flag.SETUP_REFUSED) !== 0;
      if (flagged !== refused) log.breach(tick.atMs, 3, 0, 0);
      if (!tick.fading) return;
      if (outputs.slot !== before.slot) log.exercise(tick.atMs);
      for (let i = 0; i < tick.motors; i++) watchMotor(tick, i);
      const turn = Math.abs(outputs.steer - before.steer);
      const most = (tick.hi[S.STEER_RATE]! * tick.permitMs) / 1000;
      if (turn > most + 1 + ROUNDING) log.breach(tick.atMs, 1, turn, most);
    },
    offered(atMs, slot, setup, crc, accepted) {
      const fits =
        Number.isInteger(slot) && slot >= 0 && slot < slots && setupFits(constants, setup, crc);
      log.exercise(atMs);
      refused = !fits;
      if (!fits) refusals++;
      if (fits !== (accepted === 1)) log.breach(atMs, fits ? 4 : 2, slot, 0);
    },
    verdict: () =>
      log.verdict(
        'S14',
        TITLE,
        () =>
          `${count(log.count, 'change')} of setup; no output jumped` +
          (refusals > 0 ? `, and ${count(refusals, 'invalid setup')} was refused.` : '.'),
        [
          (value, bound) =>
            `While setups faded a motor changed by ${percent(value)}, not by ${percent(bound)}.`,
          (value, bound) =>
            `While setups faded the steering moved by ${percent(value)}; ` +
            `${percent(bound)} is allowed.`,
          (value) => `An invalid setup was loaded into slot ${value}.`,
          () => 'The report of a refused setup is wrong.',
          (value) => `A valid setup was refused for slot ${value}.`,
        ],
        idle,
      ),
  };
}
