import type { Frame } from './frame.ts';
import { sumForces } from './press-tyres.ts';
import { TORQUES } from './project-driveline.ts';
import { respond, sumTorques } from './turn-wheels.ts';

/**
 * Makes the low-speed damping of the tyres implicit in the wheels' speeds, so that a light wheel
 * needs no shorter steps. With P the wheels' response, C the damping over their speeds and e the
 * change of speed that the forces as they are would bring, the change d solves
 * (1 + dt P C theta) d = e, and the forces become those under which the wheels change by d: the
 * trapezoidal rule (theta 1/2) where damping is slow, the implicit Euler rule (1) where it is fast.
 * theta = (1 + z) / (2 + z) makes one wheel alone decay by 1 / (1 + z + z²/2), z = dt P C. The body's
 * part of the slip, which it changes slowly, goes on changing as in the last step. Where neither
 * wheels nor body change their speeds nothing is altered.
 *
 * `frame.torque` must hold the torques on wheels and motors; those of the wheels, and the sum of the
 * forces on the body, are kept up.
 */
export function easeTyres(frame: Frame): void {
  const { radius, torque, response } = frame;
  const { damper, ahead, matrix, change, share } = frame.ease;
  const { force } = frame.state;
  const dt = frame.span[0]!;
  carryBody(frame);
  sumTorques(frame);
  respond(frame, change, 0, 4);
  for (let j = 0; j < 4; j++) {
    const most = damper[j]! * radius[j]! * radius[j]!;
    const theta = ahead[j]!;
    share[j] = theta * damper[j]! * radius[j]!;
    for (let i = 0; i < 4; i++) matrix[4 * i + j] = dt * response[i * TORQUES + j]! * theta * most;
    matrix[5 * j] = matrix[5 * j]! + 1;
    change[j] = dt * change[j]!;
  }
  solve(matrix, change);
  for (let i = 0; i < 4; i++) {
    const eased = force[i]! + share[i]! * change[i]!;
    force[i] = eased;
    torque[i] = -radius[i]! * eased;
  }
  sumForces(frame);
}

/**
 * Takes the damping from the middle of the step, where changes as in the last step put it, to where
 * the system begins: the body's by its share theta of the step, see above, the wheel's by none.
 */
function carryBody(frame: Frame): void {
  const { px, py, cos, sin, radius, response, torque } = frame;
  const { damper, ahead } = frame.ease;
  const { force, surge, rates } = frame.state;
  const dt = frame.span[0]!;
  const alongX = surge[0]!;
  const alongY = surge[1]!;
  const turning = surge[2]!;
  for (let i = 0; i < 4; i++) {
    const r = radius[i]!;
    const c = damper[i]!;
    const z = dt * response[i * TORQUES + i]! * (c * r * r);
    const theta = (1 + z) / (2 + z);
    ahead[i] = theta;
    const bx = alongX - turning * py[i]!;
    const by = alongY + turning * px[i]!;
    const more = (theta - 0.5) * (cos[i]! * bx + sin[i]! * by);
    const carried = force[i]! - c * dt * (more + (r * rates[i]!) / 2);
    force[i] = carried;
    torque[i] = -r * carried;
  }
}

/**
 * Solves M x = b for four wheels; x takes the place of b. Elimination by blocks of an axle: every
 * sum over left and right has two terms, so that a mirrored system has exactly the mirrored
 * solution. M is the unit matrix and the product of two positive semidefinite ones: never singular.
 */
function solve(m: Float64Array, b: Float64Array): void {
  const m22 = m[10]!;
  const m23 = m[11]!;
  const m32 = m[14]!;
  const m33 = m[15]!;
  const front = m22 * m33 - m23 * m32;
  const e02 = (m[2]! * m33 - m[3]! * m32) / front;
  const e03 = (m[3]! * m22 - m[2]! * m23) / front;
  const e12 = (m[6]! * m33 - m[7]! * m32) / front;
  const e13 = (m[7]! * m22 - m[6]! * m23) / front;
  const s00 = m[0]! - (e02 * m[8]! + e03 * m[12]!);
  const s01 = m[1]! - (e02 * m[9]! + e03 * m[13]!);
  const s10 = m[4]! - (e12 * m[8]! + e13 * m[12]!);
  const s11 = m[5]! - (e12 * m[9]! + e13 * m[13]!);
  const rear = s00 * s11 - s01 * s10;
  const left = b[0]! - (e02 * b[2]! + e03 * b[3]!);
  const right = b[1]! - (e12 * b[2]! + e13 * b[3]!);
  const x0 = (left * s11 - right * s01) / rear;
  const x1 = (right * s00 - left * s10) / rear;
  const g2 = b[2]! - (m[8]! * x0 + m[9]! * x1);
  const g3 = b[3]! - (m[12]! * x0 + m[13]! * x1);
  b[0] = x0;
  b[1] = x1;
  b[2] = (g2 * m33 - g3 * m23) / front;
  b[3] = (g3 * m22 - g2 * m32) / front;
}
