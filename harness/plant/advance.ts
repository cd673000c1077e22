import { AT } from './at.ts';
import { countEnergy } from './count-energy.ts';
import { deflectTyres, measureContacts } from './deflect-tyres.ts';
import { driveMotors } from './drive-motors.ts';
import { easeTyres } from './ease-tyres.ts';
import { findGround } from './find-ground.ts';
import type { Frame } from './frame.ts';
import { loadWheels } from './load-wheels.ts';
import { aimBody, pushBody, turnBody } from './move-body.ts';
import { pressTyres } from './press-tyres.ts';
import { steerWheels } from './steer-wheels.ts';
import { loadShafts, turnWheels } from './turn-wheels.ts';
import { warmMotors } from './warm-motors.ts';

const { BEHIND, COMMAND, DRIFT, LOCK, SLOW, SPAN, TARGET, TIME } = AT;

/**
 * One fixed step: half a step of drift, forces once in the middle, half a step of drift
 * (Störmer-Verlet; second order, symmetric, no drift of energy). Positions, angles and tyre
 * deflections drift with their velocities; velocities, wheel speeds, currents and temperatures take
 * the forces.
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
  const n = frame.numbers;
  n[SPAN] = dt;
  // The tyres' half a step of drift that ends a step is taken together with the next one's.
  n[DRIFT] = n[BEHIND]! + dt / 2;
  for (let m = 0; m < frame.motorCount; m++) n[COMMAND + m] = drive[m]!;
  n[TARGET] = (Math.min(Math.max(steer, -1000), 1000) / 1000) * n[LOCK]!;
  deflectTyres(frame);
  n[DRIFT] = dt / 2;
  n[BEHIND] = dt / 2;
  steerWheels(frame);
  turnBody(frame);
  aimBody(frame);
  findGround(frame);
  loadWheels(frame);
  pressTyres(frame);
  driveMotors(frame, enable === 0);
  loadShafts(frame);
  if (n[SLOW]! > 0) easeTyres(frame);
  turnWheels(frame);
  pushBody(frame);
  if (frame.counts) countEnergy(frame);
  warmMotors(frame);
  turnBody(frame);
  steerWheels(frame);
  measureContacts(frame);
  n[TIME] = n[TIME]! + dt;
}
