import { countEnergy } from './count-energy.ts';
import { deflectTyres, measureContacts } from './deflect-tyres.ts';
import { driveMotors } from './drive-motors.ts';
import { findGround } from './find-ground.ts';
import type { Frame } from './frame.ts';
import { loadWheels } from './load-wheels.ts';
import { aimBody, pushBody, turnBody } from './move-body.ts';
import { pressTyres } from './press-tyres.ts';
import { steerWheels } from './steer-wheels.ts';
import { turnWheels } from './turn-wheels.ts';
import { warmMotors } from './warm-motors.ts';

/** Most sub-steps, and the share of the damping's time constant each may take. */
const MOST_PARTS = 16;
const SHARE = 0.5;

/**
 * One fixed step: half a step of drift, forces once in the middle, half a step of drift
 * (Störmer-Verlet; second order, symmetric, no drift of energy). Positions, angles and tyre
 * deflections drift with their velocities; velocities, wheel speeds, currents and temperatures take
 * the forces. Where the low-speed damping of the tyres is too fast for the step, the step is cut
 * into equal parts.
 *
 * @param drive command of each motor, permille
 * @param enable 0 = bridges open
 * @param steer command, permille of full lock, left positive
 * @param dt length of the step, s
 */
export function advance(
  frame: Frame,
  drive: ArrayLike<number>,
  enable: number,
  steer: number,
  dt: number,
): void {
  const { command, span } = frame;
  span[2] = dt;
  const parts = partsOf(frame);
  span[0] = dt / parts;
  span[1] = span[0] / 2;
  for (let m = 0; m < frame.motorCount; m++) command[m] = drive[m]!;
  command[4] = steer;
  for (let i = 0; i < parts; i++) advancePart(frame, enable === 0);
}

function partsOf({ span, state }: Frame): number {
  const shares = (span[2]! * state.stiffness[0]!) / SHARE;
  return shares > 1 ? Math.min(Math.ceil(shares), MOST_PARTS) : 1;
}

function advancePart(frame: Frame, isOff: boolean): void {
  deflectTyres(frame);
  steerWheels(frame);
  turnBody(frame);
  aimBody(frame);
  findGround(frame);
  loadWheels(frame);
  pressTyres(frame);
  driveMotors(frame, isOff);
  turnWheels(frame);
  pushBody(frame);
  if (frame.counts) countEnergy(frame);
  warmMotors(frame);
  turnBody(frame);
  steerWheels(frame);
  measureContacts(frame);
  deflectTyres(frame);
  frame.state.time[0] = frame.state.time[0]! + frame.span[0]!;
}
