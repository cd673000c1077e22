import { firstReach, greatest } from './column.ts';
import type { Drive } from './drive.ts';
import { findMargin } from './find-margin.ts';
import { DEGREES, ifAsked, type MetricGroup } from './metric-definition.ts';

const isStraight = ({ manoeuvre }: Drive) => manoeuvre.kind === 'straight';

/** Where the vehicle went. */
export const COURSE_METRICS: MetricGroup<
  'courseMargin' | 'headingChange' | 'sideways' | 'yawTurned' | 'turnTime' | 'centreDrift'
> = {
  courseMargin: {
    label: 'Room left on the course',
    unit: 'm',
    digits: 3,
    resolution: 0.005,
    meaning: 'Least distance of the car’s outline from cones and lanes; negative = it hit one.',
    isOf: ifAsked,
    measure: findMargin,
  },
  headingChange: {
    label: 'Change of heading',
    unit: '°',
    digits: 1,
    resolution: 0.1,
    meaning: 'How far the car has turned from the action to the end.',
    isOf: isStraight,
    measure: (drive) => turned(drive),
  },
  sideways: {
    label: 'Way off the line',
    unit: 'm',
    digits: 2,
    resolution: 0.005,
    meaning: 'Greatest distance from the straight line it was on at the action.',
    isOf: isStraight,
    measure: ({ trace: { x, y, yaw }, after: { from, to } }) => {
      let most = 0;
      const [cos, sin] = [Math.cos(yaw[from]!), Math.sin(yaw[from]!)];
      for (let i = from; i < to; i++) {
        const off = cos * (y[i]! - y[from]!) - sin * (x[i]! - x[from]!);
        most = Math.max(most, Math.abs(off));
      }
      return most;
    },
  },
  yawTurned: {
    label: 'Turned on the spot',
    unit: '°',
    digits: 0,
    resolution: 0.1,
    meaning: 'How far the vehicle has turned from the action to the end.',
    isOf: ifAsked,
    measure: (drive) => turned(drive),
  },
  turnTime: {
    label: 'Time for a full turn',
    unit: 's',
    digits: 2,
    resolution: 0.01,
    meaning: 'From the action until the vehicle has turned by 360°.',
    isOf: ifAsked,
    measure: ({ trace: { t, yaw }, after, actionS }) => {
      const begin = yaw[after.from]!;
      const end = firstReach(t, after, 2 * Math.PI, (i) => Math.abs(yaw[i]! - begin));
      return end === undefined ? 'The vehicle did not turn all the way round.' : end - actionS;
    },
  },
  centreDrift: {
    label: 'Drift of the centre',
    unit: 'm',
    digits: 3,
    resolution: 0.005,
    meaning: 'Greatest distance of the centre of gravity from where it was at the action.',
    isOf: ifAsked,
    measure: ({ trace: { x, y }, after }) => {
      const { from } = after;
      const way = x.map((value, i) => Math.hypot(value - x[from]!, y[i]! - y[from]!));
      return greatest(way, after);
    },
  },
};

function turned({ trace: { yaw }, after: { from, to } }: Drive): number | string {
  return Math.abs(yaw[to - 1]! - yaw[from]!) * DEGREES;
}
