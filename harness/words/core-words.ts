import { Cause, Flag, State } from '../../lib/index.ts';
import type { StateKind } from '../report/report-data.ts';

/** What the builder reads for each state of the supervisor. */
export const STATE_WORDS: Readonly<Record<number, { label: string; kind: StateKind }>> = {
  [State.LOCKED]: { label: 'locked', kind: 'off' },
  [State.READY]: { label: 'ready', kind: 'ready' },
  [State.DRIVING]: { label: 'driving', kind: 'driving' },
  [State.STOPPING]: { label: 'stopping', kind: 'stopping' },
  [State.FAULT]: { label: 'fault', kind: 'fault' },
};

/** Why the core stopped by itself: the code a log holds, in a sentence with what to do. */
export const CAUSE_WORDS: Readonly<Record<number, string>> = {
  [Cause.NONE]: 'no stop',
  [Cause.SIGNAL_LOST]: 'the signal was lost for longer than the hold time',
  [Cause.TICK_GAP]: 'two ticks lay too far apart; something held the hub up',
  [Cause.CLOCK_STUCK]: "the hub's clock stood still or ran backwards",
  [Cause.LOW_SUPPLY]: 'the supply stayed below its cut-off voltage; charge the battery',
  [Cause.STALLED]:
    'a motor drew stall current for too long; free the wheel or the gears, or, if it was ' +
    'braking, see motor.stallTimeMs',
  [Cause.OVERHEATED]: 'a winding reached its limit temperature; let the motors cool',
  [Cause.JAMMED]: 'a motor was held fast; free the wheel or the gears',
  [Cause.DRIVE_LOST]: 'the drive of a side or an axle is lost; check shafts and gears',
  [Cause.WHEEL_SPIN]: 'a driven wheel broke loose, and the setup asks to stop for it',
  [Cause.BAD_CONSTANTS]: 'the constants on board failed their check; build and flash again',
  [Cause.INTERNAL]: 'a value inside the core stopped being finite; please report this run',
};

/** What one flag says of a stretch in which it was set. */
interface FlagWord {
  flag: number;
  /** In words; of yaw assist with the greatest change of the cut, permille. */
  text: string | ((assist: number) => string);
  warning: boolean;
}

/**
 * What the core does beside following the sticks; one bit each, in the order they are shown. That
 * the speed is held (Flag.SPEED_HELD) is so at every standstill and needs no word.
 */
export const FLAG_WORDS: readonly FlagWord[] = [
  { flag: Flag.HOLDING, text: 'no valid input; the last demand is held', warning: true },
  { flag: Flag.GUEST, text: 'the guest cap is on', warning: false },
  { flag: Flag.SUPPLY_LIMIT, text: 'low supply lowers the drive', warning: true },
  {
    flag: Flag.CURRENT_LIMIT,
    text: 'the current ceiling caps how far the drive may rise',
    warning: true,
  },
  { flag: Flag.HEAT_LIMIT, text: 'winding heat lowers the drive', warning: true },
  { flag: Flag.SENSOR_LOST, text: 'a sensor gives no sample; the blind cap is on', warning: true },
  { flag: Flag.FADING, text: 'fading to another setup', warning: false },
  { flag: Flag.CLOCK_ODD, text: 'a time stamp was missing, repeated or ran back', warning: true },
  { flag: Flag.SETUP_REFUSED, text: 'a setup offered to the hub was refused', warning: true },
  { flag: Flag.TRACTION_LIMIT, text: 'a finding of traction lowers the drive', warning: true },
  { flag: Flag.ASSIST, text: assistText, warning: false },
  {
    flag: Flag.GYRO_DOUBT,
    text: 'the gyro is silent or in doubt; yaw assist is off',
    warning: true,
  },
];

function assistText(most: number): string {
  const share = (most / 10).toFixed(1);
  const beyond = 'beyond none it slows the outside motor';
  return `yaw assist takes up to ${share} % of inside cut away; ${beyond}`;
}
