import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const {
  ACCELERATION_X,
  ACCELERATION_Y,
  AIR,
  BY_TYRES_X,
  BY_TYRES_Y,
  DRIFT,
  GRADIENT,
  HEADING_COS,
  HEADING_SIN,
  LAGGED_X,
  LAGGED_Y,
  LATEST_X,
  LATEST_Y,
  LOAD_LAG,
  MASS,
  PULL_X,
  PULL_Y,
  SPAN,
  SUM_MOMENT,
  SUM_X,
  SUM_Y,
  SURGE_X,
  SURGE_Y,
  SURGE_YAW,
  VX,
  VX_BEFORE,
  VY,
  VY_BEFORE,
  X,
  Y,
  YAW,
  YAW_INERTIA,
  YAW_RATE,
  YAW_RATE_BEFORE,
} = AT;

/**
 * Lets the body turn freely for half a step: the yaw angle advances and the velocity, constant in
 * space, turns the other way in the body's axes. The turn is Cayley's, which keeps the speed.
 */
export function turnBody(frame: Frame): void {
  const n = frame.numbers;
  const turn = n[YAW_RATE]! * n[DRIFT]!;
  const half = turn / 2;
  const scale = 1 / (1 + half * half);
  const cos = (1 - half * half) * scale;
  const sin = 2 * half * scale;
  const vx = n[VX]!;
  const vy = n[VY]!;
  n[VX] = cos * vx + sin * vy;
  n[VY] = cos * vy - sin * vx;
  n[YAW] = n[YAW]! + turn;
}

/** Cosine and sine of the yaw angle, for this step. */
export function aimBody(frame: Frame): void {
  const n = frame.numbers;
  const yaw = n[YAW]!;
  n[HEADING_COS] = Math.cos(yaw);
  n[HEADING_SIN] = Math.sin(yaw);
}

/**
 * Tyre forces, drag and slope push the body for a step; its place moves with the mean of the
 * velocities before and after. `aimBody` must have been called for the yaw angle.
 */
export function pushBody(frame: Frame): void {
  const n = frame.numbers;
  accelerateBody(frame);
  const dt = n[SPAN]!;
  const yawInertia = n[YAW_INERTIA]!;
  const moment = n[SUM_MOMENT]!;
  const ax = n[ACCELERATION_X]!;
  const ay = n[ACCELERATION_Y]!;
  const vx = n[VX]!;
  const vy = n[VY]!;
  const turning = n[YAW_RATE]!;
  const newX = vx + dt * ax;
  const newY = vy + dt * ay;
  const newTurning = turning + (dt * moment) / yawInertia;
  n[VX_BEFORE] = vx;
  n[VY_BEFORE] = vy;
  n[YAW_RATE_BEFORE] = turning;
  n[VX] = newX;
  n[VY] = newY;
  n[YAW_RATE] = newTurning;
  // In the body's axes a velocity that stays as it is turns the other way.
  n[SURGE_X] = ax + newTurning * vy;
  n[SURGE_Y] = ay - newTurning * vx;
  n[SURGE_YAW] = moment / yawInertia;
  const along = ((vx + newX) * dt) / 2;
  const across = ((vy + newY) * dt) / 2;
  const cos = n[HEADING_COS]!;
  const sin = n[HEADING_SIN]!;
  n[X] = n[X]! + (cos * along - sin * across);
  n[Y] = n[Y]! + (sin * along + cos * across);
  // Trapezoidal, so that the lag is right to second order.
  const q = dt / 2 / n[LOAD_LAG]!;
  const byTyresX = n[BY_TYRES_X]!;
  const byTyresY = n[BY_TYRES_Y]!;
  n[LATEST_X] = byTyresX;
  n[LATEST_Y] = byTyresY;
  n[LAGGED_X] = (n[LAGGED_X]! * (1 - q) + 2 * q * byTyresX) / (1 + q);
  n[LAGGED_Y] = (n[LAGGED_Y]! * (1 - q) + 2 * q * byTyresY) / (1 + q);
}

/**
 * Acceleration of the centre of gravity in space, in the body's axes, m/s²; by tyres and in all.
 */
export function accelerateBody(frame: Frame): void {
  const n = frame.numbers;
  const mass = n[MASS]!;
  const vx = n[VX]!;
  const vy = n[VY]!;
  const drag = (n[AIR]! * Math.sqrt(vx * vx + vy * vy)) / (2 * mass);
  const byTyresX = n[SUM_X]! / mass;
  const byTyresY = n[SUM_Y]! / mass;
  n[BY_TYRES_X] = byTyresX;
  n[BY_TYRES_Y] = byTyresY;
  n[ACCELERATION_X] = byTyresX - drag * vx;
  n[ACCELERATION_Y] = byTyresY - drag * vy;
  if (n[GRADIENT] === 0) return;
  const gx = n[PULL_X]!;
  const gy = n[PULL_Y]!;
  const cos = n[HEADING_COS]!;
  const sin = n[HEADING_SIN]!;
  n[ACCELERATION_X] = n[ACCELERATION_X]! + (cos * gx + sin * gy);
  n[ACCELERATION_Y] = n[ACCELERATION_Y]! + (cos * gy - sin * gx);
}
