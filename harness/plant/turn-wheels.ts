import type { Frame } from './frame.ts';
import { SPEEDS } from './project-driveline.ts';

/**
 * Turns wheels and motors on by a step under the torques on them, through the constant response
 * matrix of the driveline, with dry friction that holds exactly: a speed that friction can stop
 * within the step is stopped.
 */
export function turnWheels(frame: Frame): void {
  const { hold, span } = frame;
  const dt = span[0]!;
  const { speeds, rates, friction } = frame.state;
  loadShafts(frame);
  const count = 4 + frame.motorCount;
  let isMoving = true;
  for (let i = 0; i < count; i++) {
    // Far enough from zero that this step cannot bring it there.
    const reach = dt * (4 * frame.coupling[i]! * hold[i]! + 2 * Math.abs(rates[i]!));
    if (hold[i]! > 0 && Math.abs(speeds[i]!) <= reach) isMoving = false;
  }
  if (isMoving) {
    for (let i = 0; i < count; i++) friction[i] = speeds[i]! < 0 ? -hold[i]! : hold[i]!;
  } else holdStill(frame, count);
  sumTorques(frame);
  for (let row = 0; row < count; row++) turn(frame, row);
  if (frame.loose[0]! > 0) for (let row = 8; row < SPEEDS; row++) turn(frame, row);
}

function turn(frame: Frame, row: number): void {
  const { speeds, rates } = frame.state;
  const rate = respond(frame, row);
  rates[row] = rate;
  frame.speedsBefore[row] = speeds[row]!;
  speeds[row] = speeds[row]! + frame.span[0]! * rate;
}

/** Torques of tyres on wheels, and what dry friction can hold; those of motors are there already. */
export function loadShafts(frame: Frame): void {
  const { torque, hold, radius, tyre, description } = frame;
  const { force } = frame.state;
  for (let i = 0; i < 4; i++) {
    torque[i] = -radius[i]! * force[i]!;
    hold[i] = radius[i]! * tyre.rolling[i]! * force[8 + i]!;
  }
  for (let m = 0; m < frame.motorCount; m++) hold[4 + m] = description.motors[m]!.friction;
}

/** Torques less friction, for `respond`. */
export function sumTorques({ torque, net, state }: Frame): void {
  for (let i = 0; i < 8; i++) net[i] = torque[i]! - state.friction[i]!;
}

/** Rate of one speed under the summed torques; left and right are added first, for mirror images. */
export function respond({ response, net }: Frame, row: number): number {
  const at = row * SPEEDS;
  return (
    response[at]! * net[0]! +
    response[at + 1]! * net[1]! +
    (response[at + 2]! * net[2]! + response[at + 3]! * net[3]!) +
    (response[at + 4]! * net[4]! + response[at + 5]! * net[5]!) +
    (response[at + 6]! * net[6]! + response[at + 7]! * net[7]!)
  );
}

/** Passes that bring coupled speeds to rest together. */
const PASSES = 4;

/**
 * Finds the friction torques, within what can be held, that bring the speeds nearest to zero.
 * Each pass changes all at once by what the sum of couplings allows, which cannot overshoot;
 * the last step's torques are the first guess, so that a load is held without creeping.
 */
function holdStill(frame: Frame, count: number): void {
  const dt = frame.span[0]!;
  const { hold, coupling, speedsBefore: rest } = frame;
  const { speeds, friction } = frame.state;
  for (let i = 0; i < count; i++) friction[i] = clamp(friction[i]!, hold[i]!);
  for (let pass = 0; pass < PASSES; pass++) {
    sumTorques(frame);
    for (let i = 0; i < count; i++) rest[i] = speeds[i]! + dt * respond(frame, i);
    for (let i = 0; i < count; i++) {
      // A jammed wheel needs no friction to stand still.
      const wanted = coupling[i]! > 0 ? friction[i]! + rest[i]! / (dt * coupling[i]!) : 0;
      friction[i] = clamp(wanted, hold[i]!);
    }
  }
}

function clamp(value: number, most: number): number {
  return Math.min(Math.max(value, -most), most);
}
