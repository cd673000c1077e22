import { mean } from './column.ts';
import type { Drive } from './drive.ts';
import { fitCircle } from './fit-circle.ts';

/** The bend driven in a manoeuvre's steady part. */
export interface Radius {
  /** Of the circle that fits the path of the centre of gravity best, m; Infinity = straight on. */
  driven: number;
  /** Of the circle it would follow if no tyre slipped; of tracks that the stick stands for, m. */
  asked: number;
}

/** A straight line is asked for below this angle, rad. */
const STRAIGHT = 1e-6;

/** @returns a sentence if the drive does not show it */
export function findRadius({ trace, car, steady }: Drive): Radius | string {
  if (steady === undefined) return 'The manoeuvre has no steady part.';
  if (steady.to === steady.from) return 'The drive ended before it was steady.';
  const driven = fitCircle(trace.x, trace.y, steady);
  if (driven === undefined) return 'The vehicle did not move in the steady part.';
  const isTracked = car.layout === 'tracked';
  const angle = isTracked
    ? car.lock * Math.abs(mean(trace.steerStick, steady))
    : Math.abs(mean(trace.steerAngle, steady));
  // A car turns about a point beside its rear axle, tracks about one beside their middle.
  const axis = isTracked ? car.wheelbase / 2 : car.wheelbase;
  const asked =
    angle < STRAIGHT ? Infinity : Math.hypot(car.wheelbase / Math.tan(angle), axis - car.cgToFront);
  return { driven, asked };
}
