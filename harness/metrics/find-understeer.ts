import { FREE_FALL } from '../manoeuvres/sizes.ts';
import type { Drive } from './drive.ts';
import { fitLine } from './fit-line.ts';

/** Share of the grip up to which a car counts as linear; 0.4 g on a dry road is common practice. */
const LINEAR = 0.4;
/** Least difference of lateral acceleration over the grip from which a gradient can be read. */
const SPREAD = 0.15;

/**
 * Understeer gradient, rad/(m/s²): slope over lateral acceleration of what the front wheels are
 * steered beyond Ackermann's angle, arctan(wheelbase x yaw rate / speed ahead), while the
 * manoeuvre sweeps lateral acceleration up to 40 % of the grip (ISO 4138 and ISO 8855, from
 * memory). Positive = understeer.
 *
 * @returns a sentence if the drive does not show it
 */
export function findUndersteer({ trace, car, sweep }: Drive): number | string {
  if (sweep === undefined) return 'The manoeuvre does not raise lateral acceleration slowly.';
  const { ay, vx, yawRate, steerAngle } = trace;
  const grip = car.friction * FREE_FALL;
  const lateral: number[] = [];
  const beyond: number[] = [];
  for (let i = sweep.from; i < sweep.to; i++) {
    if (Math.abs(ay[i]!) > LINEAR * grip) break;
    if (!(vx[i]! > 0)) continue;
    lateral.push(ay[i]!);
    beyond.push(steerAngle[i]! - Math.atan((car.wheelbase * yawRate[i]!) / vx[i]!));
  }
  const least = lateral.reduce((a, b) => Math.min(a, b), Infinity);
  const most = lateral.reduce((a, b) => Math.max(a, b), -Infinity);
  if (!(most - least >= SPREAD * grip))
    return `Lateral acceleration did not rise evenly by ${SPREAD * 100} % of the grip.`;
  return fitLine(lateral, beyond).slope;
}
