import { State } from '../../lib/index.ts';
import { firstReach, greatest, integrate, timeAbove } from './column.ts';
import type { Drive } from './drive.ts';
import { findStop, type Stop } from './find-stop.ts';
import { ifAsked, type MetricGroup } from './metric-definition.ts';

/** Share of the top speed that counts as having reached it. */
const NEARLY = 0.95;
/** A wheel that slips by this much spins or locks; below it, its speed says nothing, m/s. */
const SLIPPING = 0.2;
const CRAWL = 0.1;

const isStop = ({ manoeuvre }: Drive) => manoeuvre.headline.includes('stoppingDistance');

/** How fast and how far, and how it came to a stop. */
export const MOTION_METRICS: MetricGroup<
  | 'topSpeed'
  | 'timeToTopSpeed'
  | 'entrySpeed'
  | 'distance'
  | 'reactionTime'
  | 'stoppingTime'
  | 'stoppingDistance'
  | 'deceleration'
  | 'rollBack'
  | 'wheelSlip'
  | 'wheelSlipTime'
> = {
  topSpeed: {
    label: 'Top speed',
    unit: 'm/s',
    digits: 2,
    resolution: 0.01,
    meaning: 'Greatest speed over ground.',
    measure: ({ trace, whole }) => greatest(trace.speed, whole),
  },
  timeToTopSpeed: {
    label: 'Time to top speed',
    unit: 's',
    digits: 2,
    resolution: 0.01,
    meaning: 'From the start until 95 % of the top speed are reached.',
    isOf: ifAsked,
    measure: ({ trace, whole }) => {
      const fast = NEARLY * greatest(trace.speed, whole);
      if (fast === 0) return 'The vehicle did not move.';
      return firstReach(trace.t, whole, fast, (i) => Math.abs(trace.speed[i]!));
    },
  },
  entrySpeed: {
    label: 'Speed at the action',
    unit: 'm/s',
    digits: 2,
    resolution: 0.01,
    meaning: 'Speed over ground when that began which the drive is about.',
    isOf: isStop,
    measure: ({ trace, after }) => Math.abs(trace.speed[after.from]!),
  },
  distance: {
    label: 'Distance',
    unit: 'm',
    digits: 2,
    resolution: 0.005,
    meaning: 'Way over ground.',
    measure: wayOf,
  },
  reactionTime: {
    label: 'Time until the core stops the drive',
    unit: 's',
    digits: 2,
    resolution: 0.01,
    meaning: 'From the action until the core begins to stop, or has stopped, by itself.',
    isOf: ifAsked,
    measure: ({ trace: { t, state }, after, actionS }) => {
      for (let i = after.from; i < after.to; i++) {
        const isOn = state[i] === State.READY || state[i] === State.DRIVING;
        if (!isOn) return t[i]! - actionS;
      }
      return 'The core drove on.';
    },
  },
  stoppingTime: {
    label: 'Stopping time',
    unit: 's',
    digits: 2,
    resolution: 0.01,
    meaning: 'From the action to standstill.',
    isOf: isStop,
    measure: (drive) => ofStop(drive, ({ time }) => time),
  },
  stoppingDistance: {
    label: 'Stopping distance',
    unit: 'm',
    digits: 2,
    resolution: 0.005,
    meaning: 'Way from the action to standstill.',
    isOf: isStop,
    measure: (drive) => ofStop(drive, ({ distance }) => distance),
  },
  deceleration: {
    label: 'Mean deceleration',
    unit: 'm/s²',
    digits: 2,
    resolution: 0.01,
    meaning: 'Speed at the action squared over twice the stopping distance.',
    isOf: isStop,
    measure: (drive) => ofStop(drive, ({ speed, distance }) => speed ** 2 / (2 * distance)),
  },
  rollBack: {
    label: 'Roll back',
    unit: 'm',
    digits: 2,
    resolution: 0.005,
    meaning: 'Farthest way the vehicle loses again of what it has gained ahead.',
    isOf: ifAsked,
    measure: rollBackOf,
  },
  wheelSlip: {
    label: 'Greatest wheel slip',
    unit: '%',
    digits: 0,
    resolution: 0.1,
    meaning:
      'Difference between the speed of a wheel’s tread and that of the ground, over the greater ' +
      'one; 100 = it spins on the spot, or slides locked; more = it turns against its way.',
    measure: ({ trace, whole: { from, to } }) => {
      let most = 0;
      for (let i = from; i < to; i++)
        if (Math.abs(trace.speed[i]!) >= CRAWL) most = Math.max(most, slipOf(trace.slipRatio, i));
      return 100 * most;
    },
  },
  wheelSlipTime: {
    label: 'Time with a slipping wheel',
    unit: 's',
    digits: 2,
    resolution: 0.01,
    meaning: 'How long at least one wheel slips by 20 % or more.',
    measure: ({ trace, whole }) =>
      timeAbove(trace.t, whole, SLIPPING, (i) => slipOf(trace.slipRatio, i)),
  },
};

/** Way over ground, m. */
export function wayOf({ trace, whole }: Drive): number {
  return integrate(trace.t, whole, (i) => Math.abs(trace.speed[i]!));
}

function slipOf(slipRatio: readonly Float64Array[], i: number): number {
  return slipRatio.reduce((most, wheel) => Math.max(most, Math.abs(wheel[i]!)), 0);
}

function ofStop(drive: Drive, take: (stop: Stop) => number): number | string {
  const stop = findStop(drive);
  return typeof stop === 'string' ? stop : take(stop);
}

function rollBackOf({ trace: { x, y, yaw }, whole: { from, to } }: Drive): number {
  const [cos, sin] = [Math.cos(yaw[from]!), Math.sin(yaw[from]!)];
  let farthest = 0;
  let lost = 0;
  for (let i = from; i < to; i++) {
    const ahead = cos * (x[i]! - x[from]!) + sin * (y[i]! - y[from]!);
    farthest = Math.max(farthest, ahead);
    lost = Math.max(lost, farthest - ahead);
  }
  return lost;
}
