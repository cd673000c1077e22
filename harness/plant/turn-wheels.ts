import { AT } from './at.ts';
import type { Frame } from './frame.ts';
import { SPEEDS, TORQUES } from './project-driveline.ts';

const {
  COUPLING,
  FORCE,
  FRICTION,
  HOLD,
  LOAD,
  LOOSE,
  NET,
  RADIUS,
  RATE,
  RESPONSE,
  ROLLING_RESISTANCE,
  SPAN,
  SPEED,
  SPEED_BEFORE,
  TORQUE,
} = AT;

/**
 * Turns wheels and motors on by a step under the torques on them (`loadShafts`), through the
 * constant response matrix of the driveline, with dry friction that holds exactly: a speed that
 * friction can stop within the step is stopped.
 */
export function turnWheels(frame: Frame): void {
  const n = frame.numbers;
  const dt = n[SPAN]!;
  const count = 4 + frame.motorCount;
  let isMoving = true;
  for (let i = 0; i < count; i++) {
    const most = n[HOLD + i]!;
    const speed = n[SPEED + i]!;
    // Far enough from zero that this step cannot bring it there.
    const reach = dt * (4 * n[COUPLING + i]! * most + 2 * Math.abs(n[RATE + i]!));
    if (Math.abs(speed) <= reach && most > 0) isMoving = false;
    n[NET + i] = n[TORQUE + i]! - (speed < 0 ? -most : most);
  }
  if (isMoving) {
    for (let i = 0; i < count; i++) n[FRICTION + i] = n[TORQUE + i]! - n[NET + i]!;
  } else holdStill(frame, count);
  turnRows(frame, 0, count);
  if (n[LOOSE]! > 0) turnRows(frame, 8, SPEEDS);
}

function turnRows(frame: Frame, from: number, to: number): void {
  const n = frame.numbers;
  const dt = n[SPAN]!;
  respond(frame, RATE, from, to);
  for (let row = from; row < to; row++) {
    const speed = n[SPEED + row]!;
    n[SPEED_BEFORE + row] = speed;
    n[SPEED + row] = speed + dt * n[RATE + row]!;
  }
}

/** Torques of tyres on wheels, and what dry friction can hold; those of motors are known. */
export function loadShafts(frame: Frame): void {
  const n = frame.numbers;
  for (let i = 0; i < 4; i++) {
    const r = n[RADIUS + i]!;
    n[TORQUE + i] = -r * n[FORCE + i]!;
    n[HOLD + i] = r * n[ROLLING_RESISTANCE + i]! * n[LOAD + i]!;
  }
}

/** Torques less friction. */
export function sumTorques({ numbers: n }: Frame): void {
  for (let i = 0; i < TORQUES; i++) n[NET + i] = n[TORQUE + i]! - n[FRICTION + i]!;
}

/**
 * Rates of some of the speeds under the summed torques, rad/s². Left and right are added first, so
 * that mirrored torques give exactly mirrored rates.
 *
 * @param into where among the frame's numbers the rate of the first speed goes; the others follow
 * it
 */
export function respond(frame: Frame, into: number, from: number, end: number): void {
  const { numbers: n, motorCount } = frame;
  // Read once: an engine cannot know that what is written is not the torques.
  const n0 = n[NET]!;
  const n1 = n[NET + 1]!;
  const n2 = n[NET + 2]!;
  const n3 = n[NET + 3]!;
  const n4 = n[NET + 4]!;
  const n5 = n[NET + 5]!;
  const n6 = n[NET + 6]!;
  const n7 = n[NET + 7]!;
  for (let row = from; row < end; row++) {
    const at = RESPONSE + row * TORQUES;
    let rate =
      n[at]! * n0 +
      n[at + 1]! * n1 +
      (n[at + 2]! * n2 + n[at + 3]! * n3) +
      (n[at + 4]! * n4 + n[at + 5]! * n5);
    if (motorCount > 2) rate += n[at + 6]! * n6 + n[at + 7]! * n7;
    n[into + row] = rate;
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
  const n = frame.numbers;
  const dt = n[SPAN]!;
  for (let i = 0; i < count; i++) {
    const most = n[HOLD + i]!;
    n[FRICTION + i] = Math.min(Math.max(n[FRICTION + i]!, -most), most);
  }
  for (let pass = 0; pass < PASSES; pass++) {
    sumTorques(frame);
    respond(frame, SPEED_BEFORE, 0, count);
    let isSettled = true;
    for (let i = 0; i < count; i++) {
      const most = n[HOLD + i]!;
      const friction = n[FRICTION + i]!;
      const coupling = n[COUPLING + i]!;
      const rest = n[SPEED + i]! + dt * n[SPEED_BEFORE + i]!;
      // A jammed wheel needs no friction to stand still.
      const wanted = coupling > 0 ? friction + rest / (dt * coupling) : 0;
      const held = Math.min(Math.max(wanted, -most), most);
      if (held !== friction) isSettled = false;
      n[FRICTION + i] = held;
    }
    if (isSettled) return;
  }
  sumTorques(frame);
}
