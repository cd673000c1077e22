import type { Frame } from './frame.ts';
import { VX, VY, X, Y, YAW, YAW_RATE } from './state.ts';

/**
 * Lets the body turn freely for half a step: the yaw angle advances and the velocity, constant in
 * space, turns the other way in the body's axes. The turn is Cayley's, which keeps the speed.
 */
export function turnBody(frame: Frame): void {
  const { body } = frame.state;
  const turn = body[YAW_RATE]! * frame.span[1]!;
  const half = turn / 2;
  const scale = 1 / (1 + half * half);
  const cos = (1 - half * half) * scale;
  const sin = 2 * half * scale;
  const vx = body[VX]!;
  const vy = body[VY]!;
  body[VX] = cos * vx + sin * vy;
  body[VY] = cos * vy - sin * vx;
  body[YAW] = body[YAW]! + turn;
}

/** Cosine and sine of the yaw angle, for this step. */
export function aimBody(frame: Frame): void {
  const yaw = frame.state.body[YAW]!;
  frame.heading[0] = Math.cos(yaw);
  frame.heading[1] = Math.sin(yaw);
}

/**
 * Tyre forces, drag and slope push the body for a step; its place moves with the mean of the
 * velocities before and after. `frame.heading` must hold the yaw angle.
 */
export function pushBody(frame: Frame): void {
  const dt = frame.span[0]!;
  const { acceleration, bodyBefore, heading } = frame;
  const { body, transfer, surge } = frame.state;
  const { yawInertia, loadLag } = frame.description.body;
  accelerateBody(frame);
  const moment = frame.sum[2]!;
  const ax = acceleration[0]!;
  const ay = acceleration[1]!;
  const vx = body[VX]!;
  const vy = body[VY]!;
  const turning = body[YAW_RATE]!;
  const newX = vx + dt * ax;
  const newY = vy + dt * ay;
  const newTurning = turning + (dt * moment) / yawInertia;
  bodyBefore[0] = vx;
  bodyBefore[1] = vy;
  bodyBefore[2] = turning;
  body[VX] = newX;
  body[VY] = newY;
  body[YAW_RATE] = newTurning;
  // In the body's axes a velocity that stays as it is turns the other way.
  surge[0] = ax + newTurning * vy;
  surge[1] = ay - newTurning * vx;
  surge[2] = moment / yawInertia;
  const along = ((vx + newX) * dt) / 2;
  const across = ((vy + newY) * dt) / 2;
  body[X] = body[X]! + (heading[0]! * along - heading[1]! * across);
  body[Y] = body[Y]! + (heading[1]! * along + heading[0]! * across);
  // Trapezoidal, so that the lag is right to second order.
  const q = dt / 2 / loadLag;
  const byTyresX = acceleration[2]!;
  const byTyresY = acceleration[3]!;
  transfer[2] = byTyresX;
  transfer[3] = byTyresY;
  transfer[0] = (transfer[0]! * (1 - q) + 2 * q * byTyresX) / (1 + q);
  transfer[1] = (transfer[1]! * (1 - q) + 2 * q * byTyresY) / (1 + q);
}

/** Acceleration of the centre of gravity in space, in the body's axes, m/s²; by tyres and in all. */
export function accelerateBody(frame: Frame): void {
  const { sum, heading, acceleration, description } = frame;
  const { body } = frame.state;
  const { mass, dragArea, airDensity } = description.body;
  const { gradient, uphill } = description.ground;
  const vx = body[VX]!;
  const vy = body[VY]!;
  const drag = (airDensity * dragArea * Math.sqrt(vx * vx + vy * vy)) / (2 * mass);
  const byTyresX = sum[0]! / mass;
  const byTyresY = sum[1]! / mass;
  acceleration[2] = byTyresX;
  acceleration[3] = byTyresY;
  acceleration[0] = byTyresX - drag * vx;
  acceleration[1] = byTyresY - drag * vy;
  if (gradient === 0) return;
  const pull = description.gravity * Math.sin(gradient);
  const gx = -pull * Math.cos(uphill);
  const gy = -pull * Math.sin(uphill);
  acceleration[0] = acceleration[0]! + (heading[0]! * gx + heading[1]! * gy);
  acceleration[1] = acceleration[1]! + (heading[0]! * gy - heading[1]! * gx);
}
