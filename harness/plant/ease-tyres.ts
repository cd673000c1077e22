import { AT } from './at.ts';
import type { Frame } from './frame.ts';
import { sumForces } from './press-tyres.ts';
import { TORQUES } from './project-driveline.ts';
import { respond, sumTorques } from './turn-wheels.ts';

const {
  AHEAD,
  CHANGE,
  COS,
  DAMPER,
  FORCE,
  MATRIX,
  PX,
  PY,
  RADIUS,
  RATE,
  RESPONSE,
  SHARE,
  SIN,
  SPAN,
  SURGE_X,
  SURGE_Y,
  SURGE_YAW,
  TORQUE,
} = AT;

/**
 * Makes the low-speed damping of the tyres implicit in the wheels' speeds, so that a light wheel
 * needs no shorter steps. With P the wheels' response, C the damping over their speeds and e the
 * change of speed that the forces as they are would bring, the change d solves
 * (1 + dt P C theta) d = e, and the forces become those under which the wheels change by d: the
 * trapezoidal rule (theta 1/2) where damping is slow, the implicit Euler rule (1) where it is fast.
 * theta = (1 + z) / (2 + z) makes one wheel alone decay by 1 / (1 + z + z²/2), z = dt P C. The
 * body's part of the slip, which it changes slowly, goes on changing as in the last step. Where
 * neither wheels nor body change their speeds nothing is altered.
 *
 * The frame must hold the torques on wheels and motors; those of the wheels, and the sum of the
 * forces on the body, are kept up.
 */
export function easeTyres(frame: Frame): void {
  const n = frame.numbers;
  const dt = n[SPAN]!;
  carryBody(frame);
  sumTorques(frame);
  respond(frame, CHANGE, 0, 4);
  for (let j = 0; j < 4; j++) {
    const damper = n[DAMPER + j]!;
    const radius = n[RADIUS + j]!;
    const most = damper * radius * radius;
    const theta = n[AHEAD + j]!;
    n[SHARE + j] = theta * damper * radius;
    for (let i = 0; i < 4; i++) {
      n[MATRIX + 4 * i + j] = dt * n[RESPONSE + i * TORQUES + j]! * theta * most;
    }
    n[MATRIX + 5 * j] = n[MATRIX + 5 * j]! + 1;
    n[CHANGE + j] = dt * n[CHANGE + j]!;
  }
  solve(frame);
  for (let i = 0; i < 4; i++) {
    const eased = n[FORCE + i]! + n[SHARE + i]! * n[CHANGE + i]!;
    n[FORCE + i] = eased;
    n[TORQUE + i] = -n[RADIUS + i]! * eased;
  }
  sumForces(frame);
}

/**
 * Takes the damping from the middle of the step, where changes as in the last step put it, to where
 * the system begins: the body's by its share theta of the step, see above, the wheel's by none.
 */
function carryBody(frame: Frame): void {
  const n = frame.numbers;
  const dt = n[SPAN]!;
  const alongX = n[SURGE_X]!;
  const alongY = n[SURGE_Y]!;
  const turning = n[SURGE_YAW]!;
  for (let i = 0; i < 4; i++) {
    const r = n[RADIUS + i]!;
    const c = n[DAMPER + i]!;
    const z = dt * n[RESPONSE + i * TORQUES + i]! * (c * r * r);
    const theta = (1 + z) / (2 + z);
    n[AHEAD + i] = theta;
    const bx = alongX - turning * n[PY + i]!;
    const by = alongY + turning * n[PX + i]!;
    const more = (theta - 0.5) * (n[COS + i]! * bx + n[SIN + i]! * by);
    const carried = n[FORCE + i]! - c * dt * (more + (r * n[RATE + i]!) / 2);
    n[FORCE + i] = carried;
    n[TORQUE + i] = -r * carried;
  }
}

/**
 * Solves M x = b for four wheels, M the frame's matrix and b its change, of which x takes the
 * place. Elimination by blocks of an axle: every sum over left and right has two terms, so that a
 * mirrored system has exactly the mirrored solution. M is the unit matrix and the product of two
 * positive semidefinite ones: never singular.
 */
function solve({ numbers: n }: Frame): void {
  const m = MATRIX;
  const b = CHANGE;
  const m22 = n[m + 10]!;
  const m23 = n[m + 11]!;
  const m32 = n[m + 14]!;
  const m33 = n[m + 15]!;
  const front = m22 * m33 - m23 * m32;
  const e02 = (n[m + 2]! * m33 - n[m + 3]! * m32) / front;
  const e03 = (n[m + 3]! * m22 - n[m + 2]! * m23) / front;
  const e12 = (n[m + 6]! * m33 - n[m + 7]! * m32) / front;
  const e13 = (n[m + 7]! * m22 - n[m + 6]! * m23) / front;
  const s00 = n[m]! - (e02 * n[m + 8]! + e03 * n[m + 12]!);
  const s01 = n[m + 1]! - (e02 * n[m + 9]! + e03 * n[m + 13]!);
  const s10 = n[m + 4]! - (e12 * n[m + 8]! + e13 * n[m + 12]!);
  const s11 = n[m + 5]! - (e12 * n[m + 9]! + e13 * n[m + 13]!);
  const rear = s00 * s11 - s01 * s10;
  const left = n[b]! - (e02 * n[b + 2]! + e03 * n[b + 3]!);
  const right = n[b + 1]! - (e12 * n[b + 2]! + e13 * n[b + 3]!);
  const x0 = (left * s11 - right * s01) / rear;
  const x1 = (right * s00 - left * s10) / rear;
  const g2 = n[b + 2]! - (n[m + 8]! * x0 + n[m + 9]! * x1);
  const g3 = n[b + 3]! - (n[m + 12]! * x0 + n[m + 13]! * x1);
  n[b] = x0;
  n[b + 1] = x1;
  n[b + 2] = (g2 * m33 - g3 * m23) / front;
  n[b + 3] = (g3 * m22 - g2 * m32) / front;
}
