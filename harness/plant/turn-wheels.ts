import type { Frame } from './frame.ts';
import { SPEEDS, TORQUES } from './project-driveline.ts';

/**
 * Turns wheels and motors on by a step under the torques on them (`loadShafts`), through the constant
 * response matrix of the driveline, with dry friction that holds exactly: a speed that friction can stop
 * within the step is stopped.
 */
export function turnWheels(frame: Frame): void {
  const { hold, coupling, torque, net } = frame;
  const { speeds, rates, friction } = frame.state;
  const dt = frame.span[0]!;
  const count = 4 + frame.motorCount;
  let isMoving = true;
  for (let i = 0; i < count; i++) {
    const most = hold[i]!;
    const speed = speeds[i]!;
    // Far enough from zero that this step cannot bring it there.
    const reach = dt * (4 * coupling[i]! * most + 2 * Math.abs(rates[i]!));
    if (Math.abs(speed) <= reach && most > 0) isMoving = false;
    net[i] = torque[i]! - (speed < 0 ? -most : most);
  }
  if (isMoving) for (let i = 0; i < count; i++) friction[i] = torque[i]! - net[i]!;
  else holdStill(frame, count);
  turnRows(frame, 0, count);
  if (frame.loose[0]! > 0) turnRows(frame, 8, SPEEDS);
}

function turnRows(frame: Frame, from: number, to: number): void {
  const { speedsBefore } = frame;
  const { speeds, rates } = frame.state;
  const dt = frame.span[0]!;
  respond(frame, rates, from, to);
  for (let row = from; row < to; row++) {
    speedsBefore[row] = speeds[row]!;
    speeds[row] = speeds[row]! + dt * rates[row]!;
  }
}

/** Torques of tyres on wheels, and what dry friction can hold; those of motors are known. */
export function loadShafts(frame: Frame): void {
  const { torque, hold, radius, tyre } = frame;
  const { rolling } = tyre;
  const { force } = frame.state;
  for (let i = 0; i < 4; i++) {
    const r = radius[i]!;
    torque[i] = -r * force[i]!;
    hold[i] = r * rolling[i]! * force[8 + i]!;
  }
}

/** Torques less friction. */
export function sumTorques({ torque, net, state }: Frame): void {
  for (let i = 0; i < TORQUES; i++) net[i] = torque[i]! - state.friction[i]!;
}

/**
 * Rates of some of the speeds under the summed torques, rad/s². Left and right are added first, so
 * that mirrored torques give exactly mirrored rates.
 */
export function respond(frame: Frame, out: Float64Array, from: number, to: number): void {
  const { response, net, motorCount } = frame;
  // Read once: an engine cannot know that `out` is not `net`.
  const n0 = net[0]!;
  const n1 = net[1]!;
  const n2 = net[2]!;
  const n3 = net[3]!;
  const n4 = net[4]!;
  const n5 = net[5]!;
  const n6 = net[6]!;
  const n7 = net[7]!;
  for (let row = from; row < to; row++) {
    const at = row * TORQUES;
    let rate =
      response[at]! * n0 +
      response[at + 1]! * n1 +
      (response[at + 2]! * n2 + response[at + 3]! * n3) +
      (response[at + 4]! * n4 + response[at + 5]! * n5);
    if (motorCount > 2) rate += response[at + 6]! * n6 + response[at + 7]! * n7;
    out[row] = rate;
  }
}

/** Passes that bring coupled speeds to rest together. */
const PASSES = 4;

/**
 * Finds the friction torques, within what can be held, that bring the speeds nearest to zero.
 * Each pass changes all at once by what the sum of couplings allows, which cannot overshoot;
 * the last step's torques are the first guess, so that a load is held without creeping.
 */
function holdStill(frame: Frame, count: number): void {
  const { hold, coupling, speedsBefore: given } = frame;
  const { speeds, friction } = frame.state;
  const dt = frame.span[0]!;
  for (let i = 0; i < count; i++)
    friction[i] = Math.min(Math.max(friction[i]!, -hold[i]!), hold[i]!);
  for (let pass = 0; pass < PASSES; pass++) {
    sumTorques(frame);
    respond(frame, given, 0, count);
    let isSettled = true;
    for (let i = 0; i < count; i++) {
      const rest = speeds[i]! + dt * given[i]!;
      // A jammed wheel needs no friction to stand still.
      const wanted = coupling[i]! > 0 ? friction[i]! + rest / (dt * coupling[i]!) : 0;
      const held = Math.min(Math.max(wanted, -hold[i]!), hold[i]!);
      if (held !== friction[i]) isSettled = false;
      friction[i] = held;
    }
    if (isSettled) return;
  }
  sumTorques(frame);
}
