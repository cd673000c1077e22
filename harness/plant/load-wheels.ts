import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const {
  CG_HEIGHT,
  DRIFT,
  LAGGED_X,
  LAGGED_Y,
  LATEST_X,
  LATEST_Y,
  LOAD,
  LOAD_LAG,
  MASS,
  ROLL_SHARE_FRONT,
  SPAN,
  TIPPING,
  TRACK_FRONT,
  TRACK_REAR,
  WEIGHT,
  WEIGHT_TO_REAR,
  WHEELBASE,
} = AT;

/**
 * Wheel loads of a rigid body on quasi-static springs: longitudinal transfer m ax h / L; the roll
 * moment m ay h is shared between the axles by their roll stiffness. A wheel that has lifted
 * carries nothing, and the other axle takes what its axle no longer can; what no wheel is left to
 * carry tips the body over. The accelerations are those of the tyre forces, lagged, expected in the
 * middle of the step.
 */
export function loadWheels(frame: Frame): void {
  const n = frame.numbers;
  const lag = n[DRIFT]! / n[LOAD_LAG]!;
  const ax = n[LAGGED_X]! + lag * (n[LATEST_X]! - n[LAGGED_X]!);
  const ay = n[LAGGED_Y]! + lag * (n[LATEST_Y]! - n[LAGGED_Y]!);
  const mass = n[MASS]!;
  const weight = n[WEIGHT]!;
  const moment = mass * ax * n[CG_HEIGHT]!;
  const front = clamp((n[WEIGHT_TO_REAR]! - moment) / n[WHEELBASE]!, 0, weight);
  const rear = weight - front;
  const roll = mass * ay * n[CG_HEIGHT]!;
  const trackFront = n[TRACK_FRONT]!;
  const trackRear = n[TRACK_REAR]!;
  const mostFront = (front * trackFront) / 2;
  const mostRear = (rear * trackRear) / 2;
  const first = clamp(n[ROLL_SHARE_FRONT]! * roll, -mostFront, mostFront);
  const rollRear = clamp(roll - first, -mostRear, mostRear);
  const rollFront = clamp(roll - rollRear, -mostFront, mostFront);
  const shiftRear = rollRear / trackRear;
  const shiftFront = rollFront / trackFront;
  n[LOAD] = rear / 2 - shiftRear;
  n[LOAD + 1] = rear / 2 + shiftRear;
  n[LOAD + 2] = front / 2 - shiftFront;
  n[LOAD + 3] = front / 2 + shiftFront;
  const isTipping = Math.abs(roll) > mostFront + mostRear;
  n[TIPPING] = isTipping ? n[TIPPING]! + n[SPAN]! : 0;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
