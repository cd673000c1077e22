import { timeScale } from '../manoeuvres/sizes.ts';
import { mean } from './column.ts';
import type { Drive } from './drive.ts';
import { findLag } from './find-lag.ts';
import { findStepResponse, type StepResponse } from './find-step-response.ts';
import { DEGREES, ifAsked, type MetricGroup } from './metric-definition.ts';

const isStep = ({ manoeuvre }: Drive) => manoeuvre.headline.includes('yawResponseTime');

/** How the vehicle follows a change. */
export const RESPONSE_METRICS: MetricGroup<
  | 'yawRateGain'
  | 'yawResponseTime'
  | 'yawPeakTime'
  | 'yawOvershoot'
  | 'lateralResponseTime'
  | 'tbFactor'
  | 'yawLag'
  | 'tuckIn'
> = {
  yawRateGain: {
    label: 'Yaw rate gain',
    unit: '1/s',
    digits: 2,
    resolution: 0.01,
    meaning:
      'Yaw rate for each unit of steering angle: of the steady part, or of the crests of a sine.',
    isOf: isStep,
    measure: (drive) => {
      if (drive.steady === undefined) return of(findLag(drive), ({ gain }) => gain);
      return ofYaw(drive, ({ steady, angle }) => steady / angle);
    },
  },
  yawResponseTime: {
    label: 'Response time of the yaw rate',
    unit: 'ms',
    digits: 0,
    resolution: 1,
    meaning: 'From half of the steering’s way to 90 % of the steady yaw rate (ISO 7401).',
    isOf: isStep,
    measure: (drive) => ofYaw(drive, ({ responseTime }) => 1000 * responseTime),
  },
  yawPeakTime: {
    label: 'Peak response time of the yaw rate',
    unit: 'ms',
    digits: 0,
    resolution: 1,
    meaning: 'From half of the steering’s way to the greatest yaw rate (ISO 7401).',
    isOf: isStep,
    measure: (drive) => ofYaw(drive, (found) => ofPeak(found, 1000)),
  },
  yawOvershoot: {
    label: 'Overshoot of the yaw rate',
    unit: '%',
    digits: 1,
    resolution: 0.1,
    meaning: 'How far the yaw rate swings past its steady value (ISO 7401), if noise did not.',
    isOf: isStep,
    measure: (drive) =>
      ofYaw(drive, ({ overshoot, tremble }) =>
        overshoot > 0 && overshoot < tremble ? trembling(tremble) : 100 * overshoot,
      ),
  },
  lateralResponseTime: {
    label: 'Response time of the lateral acceleration',
    unit: 'ms',
    digits: 0,
    resolution: 1,
    meaning: 'From half of the steering’s way to 90 % of the steady acceleration (ISO 7401).',
    isOf: isStep,
    measure: (drive) =>
      of(findStepResponse(drive, drive.trace.ay), ({ responseTime }) => 1000 * responseTime),
  },
  tbFactor: {
    label: 'TB factor',
    unit: '° s',
    digits: 3,
    resolution: 0.001,
    meaning: 'Peak response time of the yaw rate times steady sideslip angle; small is agile.',
    isOf: isStep,
    measure: (drive) =>
      ofYaw(drive, (found) => {
        const sideslip = Math.abs(mean(drive.sideslip, drive.steady!)) * DEGREES;
        return ofPeak(found, sideslip);
      }),
  },
  yawLag: {
    label: 'Lag of the yaw rate',
    unit: 'ms',
    digits: 0,
    resolution: 1,
    meaning: 'From the first crest of the steering to that of the yaw rate (ISO 7401).',
    isOf: ifAsked,
    measure: (drive) => of(findLag(drive), ({ time }) => 1000 * time),
  },
  tuckIn: {
    label: 'Tuck-in',
    unit: '',
    digits: 2,
    resolution: 0.01,
    meaning:
      'How many times sharper the path gets within a second of full-size time after the throttle ' +
      'is let go; above 1 the nose turns in.',
    isOf: ifAsked,
    measure: findTuckIn,
  },
};

/** An overshoot below this is no peak: it may be the speed that was not quite even. */
const LEAST = 0.02;

/** A factor times the peak response time. */
function ofPeak(found: StepResponse, factor: number): number | string {
  const { peakTime, overshoot, tremble } = found;
  if (overshoot < LEAST) return 'The yaw rate passes its steady value by less than 2 %.';
  return overshoot < tremble ? trembling(tremble) : factor * peakTime;
}

function trembling(tremble: number): string {
  const most = (100 * tremble).toFixed(1);
  return `The yaw rate passes its steady value by less than ${most} %, as noise may make it.`;
}

function ofYaw(drive: Drive, take: (found: StepResponse) => number | string): number | string {
  return of(findStepResponse(drive, drive.trace.yawRate), take);
}

/** Takes a value from a finding, or hands on why there is none. */
function of<T>(found: T | string, take: (found: T) => number | string): number | string {
  return typeof found === 'string' ? found : take(found);
}

/** Greatest curvature of the path after the action over that at the action. */
function findTuckIn({ trace, after, actionS, car }: Drive): number | string {
  const { t, yawRate, vx, vy } = trace;
  const speed = (i: number) => Math.hypot(vx[i]!, vy[i]!);
  const begin = speed(after.from);
  const before = Math.abs(yawRate[after.from]!) / begin;
  if (!(before > 0 && Number.isFinite(before))) return 'The vehicle was not in a bend.';
  let most = 0;
  for (let i = after.from; i < after.to; i++) {
    // A car that has almost stopped turns on the spot.
    if (t[i]! > actionS + timeScale(car) || speed(i) < begin / 2) break;
    most = Math.max(most, Math.abs(yawRate[i]!) / speed(i));
  }
  return most / before;
}
