import { FREE_FALL } from '../manoeuvres/sizes.ts';
import { greatest } from './column.ts';
import type { Drive } from './drive.ts';
import { findBalance } from './find-balance.ts';
import { findRadius } from './find-radius.ts';
import { findUndersteer } from './find-understeer.ts';
import { DEGREES, type MetricGroup } from './metric-definition.ts';

const isSwept = ({ sweep }: Drive) => sweep !== undefined;
const isSteady = ({ steady }: Drive) => steady !== undefined;

/** How the vehicle takes a bend. */
export const BEND_METRICS: MetricGroup<
  | 'understeerGradient'
  | 'understeerGradientPerG'
  | 'characteristicSpeed'
  | 'criticalSpeed'
  | 'balance'
  | 'pathRadius'
  | 'radiusRatio'
  | 'lateralAcceleration'
  | 'sideslip'
  | 'yawRate'
> = {
  understeerGradient: {
    label: 'Understeer gradient',
    unit: 'rad/(m/s²)',
    digits: 5,
    resolution: 1e-5,
    meaning: 'Steering angle needed beyond Ackermann’s for each m/s² of lateral acceleration.',
    isOf: isSwept,
    measure: findUndersteer,
  },
  understeerGradientPerG: {
    label: 'Understeer gradient per g',
    unit: '°/g',
    digits: 2,
    resolution: 0.01,
    meaning:
      'The same for each g: positive = must be steered more the faster it goes, negative = less.',
    isOf: isSwept,
    measure: (drive) => {
      const gradient = findUndersteer(drive);
      return typeof gradient === 'string' ? gradient : gradient * DEGREES * FREE_FALL;
    },
  },
  characteristicSpeed: {
    label: 'Characteristic speed',
    unit: 'm/s',
    digits: 2,
    resolution: 0.01,
    meaning:
      'Speed at which an understeering car needs twice Ackermann’s angle, and turns most for a ' +
      'given angle: √(wheelbase / gradient).',
    isOf: isSwept,
    measure: (drive) => speedOf(drive, 1),
  },
  criticalSpeed: {
    label: 'Critical speed',
    unit: 'm/s',
    digits: 2,
    resolution: 0.01,
    meaning:
      'Speed from which an oversteering car cannot be held straight: √(-wheelbase / gradient).',
    isOf: isSwept,
    measure: (drive) => speedOf(drive, -1),
  },
  balance: {
    label: 'Balance',
    unit: '°',
    digits: 1,
    resolution: 0.01,
    meaning:
      'Mean front less mean rear slip angle in the bend: positive = the nose slides more ' +
      '(understeer), negative = the tail does.',
    isOf: ({ manoeuvre }) => manoeuvre.kind === 'bend',
    measure: (drive) => {
      // Tracks scrub; the verdict says so.
      if (drive.car.layout === 'tracked') return undefined;
      const balance = findBalance(drive);
      return balance === undefined ? 'The vehicle never took a bend.' : balance * DEGREES;
    },
  },
  pathRadius: {
    label: 'Path radius',
    unit: 'm',
    digits: 2,
    resolution: 0.005,
    meaning: 'Radius of the circle that fits the steady part of the path best.',
    isOf: isSteady,
    measure: (drive) => {
      const radius = findRadius(drive);
      if (typeof radius === 'string') return radius;
      return radius.driven === Infinity ? 'The vehicle went straight on.' : radius.driven;
    },
  },
  radiusRatio: {
    label: 'Path radius over geometric radius',
    unit: '',
    digits: 2,
    resolution: 0.01,
    meaning:
      'How many times wider the bend is than the steering asks for without slip: 2 or more is ' +
      'ploughing, below 1 the car tightens the bend. Of tracks: than wheelbase / ' +
      'tan(steeringLockDeg) at full stick; they scrub, so expect more than 1.',
    isOf: isSteady,
    measure: (drive) => {
      const radius = findRadius(drive);
      if (typeof radius === 'string') return radius;
      if (radius.asked === Infinity) return 'The steering was straight ahead.';
      if (radius.driven === Infinity) return 'The vehicle went straight on.';
      return radius.driven / radius.asked;
    },
  },
  lateralAcceleration: {
    label: 'Greatest lateral acceleration',
    unit: 'm/s²',
    digits: 2,
    resolution: 0.01,
    meaning: 'Across the vehicle, at its centre of gravity; friction times g is about the limit.',
    measure: ({ trace, whole }) => greatest(trace.ay, whole),
  },
  sideslip: {
    label: 'Greatest sideslip angle',
    unit: '°',
    digits: 1,
    resolution: 0.1,
    meaning:
      'Angle between where the car points and where it goes, at its centre of gravity, from the ' +
      'action on; 180 = it goes tail first.',
    measure: ({ sideslip, after }) => greatest(sideslip, after) * DEGREES,
  },
  yawRate: {
    label: 'Greatest yaw rate',
    unit: '°/s',
    digits: 0,
    resolution: 0.1,
    meaning: 'How fast the car turns about its vertical axis at most.',
    measure: ({ trace, whole }) => greatest(trace.yawRate, whole) * DEGREES,
  },
};

/** The characteristic (1) or critical (-1) speed; left out where the gradient has another sign. */
function speedOf(drive: Drive, sign: number): number | string | undefined {
  const gradient = findUndersteer(drive);
  if (typeof gradient === 'string') return gradient;
  return sign * gradient > 0 ? Math.sqrt((sign * drive.car.wheelbase) / gradient) : undefined;
}
