import { Cause, type Constants, Flag, Found, type Outputs, State } from '../../lib/index.ts';
import { count, createLimitLog } from './limit-log.ts';
import type { LimitMonitor } from './limit-monitor.ts';
import { ROUNDING } from './slope.ts';

const TITLE = 'Every output is a whole number in its range, whatever arrives';
const CAUSES: readonly number[] = [
  Cause.NONE,
  Cause.SIGNAL_LOST,
  Cause.TICK_GAP,
  Cause.CLOCK_STUCK,
  Cause.LOW_SUPPLY,
  Cause.STALLED,
  Cause.OVERHEATED,
  Cause.JAMMED,
  Cause.DRIVE_LOST,
  Cause.WHEEL_SPIN,
  Cause.BAD_CONSTANTS,
  Cause.INTERNAL,
];
const ALL_FLAGS = 2 * Flag.GYRO_DOUBT - 1;
const ALL_FOUND = 2 * Found.FRONT_FREE - 1;
/** As much as a record holds, mm/s. */
const MOST_SPEED = 32767;

/** S1: outputs are integers inside their limits for any input; the signals between are finite. */
export function s01OutputsInRange(constants: Constants): LimitMonitor {
  const log = createLimitLog();
  const slots = constants.setups.length;

  /** Place of the first output that is out of range in `NAMES`; -1 = none. */
  function offender(outputs: Outputs, motors: number): number {
    for (let i = 0; i < motors; i++) if (!whole(outputs.drive[i]!, -1000, 1000)) return i;
    if (!whole(outputs.steer, -1000, 1000)) return 4;
    if (!whole(outputs.enable, 0, 1)) return 5;
    if (!whole(outputs.state, State.LOCKED, State.FAULT)) return 6;
    if (outputs.cause !== Cause.NONE && !CAUSES.includes(outputs.cause)) return 7;
    if (!whole(outputs.flags, 0, ALL_FLAGS)) return 8;
    if (!whole(outputs.slot, 0, slots - 1)) return 9;
    if (!inside(outputs.throttle, -1000)) return 10;
    if (!inside(outputs.demand, -1000)) return 11;
    if (!inside(outputs.cut, -1000)) return 12;
    if (!inside(outputs.limit, 0)) return 13;
    if (!(Math.abs(outputs.speed) <= MOST_SPEED)) return 14;
    if (!whole(outputs.found, 0, ALL_FOUND)) return 15;
    if (!inside(outputs.spin, 0)) return 16;
    if (!inside(outputs.free, 0)) return 17;
    if (!inside(outputs.jam, 0)) return 18;
    return inside(outputs.assist, -1000) ? -1 : 19;
  }

  return {
    id: 'S1',
    title: TITLE,
    observe({ atMs, outputs, motors }) {
      log.exercise(atMs);
      const at = offender(outputs, motors);
      if (at >= 0) log.breach(atMs, at, valueAt(outputs, at), 0);
    },
    verdict: () =>
      log.verdict(
        'S1',
        TITLE,
        () => `All outputs of ${count(log.count, 'tick')} were whole numbers in their ranges.`,
        NAMES.map((name) => (value: string) => `The ${name} was ${value}.`),
        'There was no tick.',
      ),
  };
}

const NAMES = [
  ...[1, 2, 3, 4].map((motor) => `command of motor ${motor}`),
  'steering command',
  'enable output',
  'state',
  'cause',
  'word of flags',
  'slot',
  'shaped throttle',
  'drive demand',
  'inside cut',
  'share left by protection',
  'estimated speed',
  'word of findings',
  ...['spin', 'lost drive', 'jam'].map((kind) => `confidence in a ${kind}`),
  'change of cut by yaw assist',
];

function valueAt(outputs: Outputs, at: number): number {
  if (at < 4) return outputs.drive[at]!;
  const { steer, enable, state, cause, flags, slot, throttle, demand, cut, limit } = outputs;
  const { speed, found, spin, free, jam, assist } = outputs;
  const early = [steer, enable, state, cause, flags, slot, throttle, demand, cut, limit];
  return [...early, speed, found, spin, free, jam, assist][at - 4]!;
}

/** A negative zero is refused too: some engines lose its sign, and runs would differ. */
function whole(value: number, least: number, most: number): boolean {
  return value === (value | 0) && value >= least && value <= most && !Object.is(value, -0);
}

function inside(value: number, least: number): boolean {
  return value >= least - ROUNDING && value <= 1000 + ROUNDING;
}
