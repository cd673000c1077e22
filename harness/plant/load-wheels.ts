import type { Frame } from './frame.ts';

/** Index of the first load in `state.force`. */
const LOAD = 8;

/**
 * Wheel loads of a rigid body on quasi-static springs: longitudinal transfer m ax h / L; the roll
 * moment m ay h is shared between the axles by their roll stiffness. A wheel that has lifted
 * carries nothing, and the other axle takes what its axle no longer can; what no wheel is left to
 * carry tips the body over. The accelerations are those of the tyre forces, lagged, expected in the
 * middle of the step.
 */
export function loadWheels(frame: Frame): void {
  const { description, span } = frame;
  const { mass, cgHeight, cgToFront, cgToRear, trackFront, trackRear } = description.body;
  const { force: loads, transfer } = frame.state;
  const lag = span[1]! / description.body.loadLag;
  const ax = transfer[0]! + lag * (transfer[2]! - transfer[0]!);
  const ay = transfer[1]! + lag * (transfer[3]! - transfer[1]!);
  const weight = frame.weight[0]!;
  const moment = mass * ax * cgHeight;
  const front = clamp((weight * cgToRear - moment) / (cgToFront + cgToRear), 0, weight);
  const rear = weight - front;
  const roll = mass * ay * cgHeight;
  const mostFront = (front * trackFront) / 2;
  const mostRear = (rear * trackRear) / 2;
  const first = clamp(description.body.rollShareFront * roll, -mostFront, mostFront);
  const rollRear = clamp(roll - first, -mostRear, mostRear);
  const rollFront = clamp(roll - rollRear, -mostFront, mostFront);
  const shiftRear = rollRear / trackRear;
  const shiftFront = rollFront / trackFront;
  loads[LOAD] = rear / 2 - shiftRear;
  loads[LOAD + 1] = rear / 2 + shiftRear;
  loads[LOAD + 2] = front / 2 - shiftFront;
  loads[LOAD + 3] = front / 2 + shiftFront;
  const isTipping = Math.abs(roll) > mostFront + mostRear;
  transfer[4] = isTipping ? transfer[4]! + span[0]! : 0;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
