import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const { COS, DRIFT, SIN, STEERED, STEERING, STEERING_RATE, STEERING_SHARE, TARGET } = AT;

/**
 * Moves the steering on towards its target by half a step at the servo's rate, and turns the front
 * wheels: with T the tangent of the single-track angle, cot(left) = 1/T - a t/(2 L),
 * cot(right) = 1/T + a t/(2 L); a = 1 is Ackermann's condition, a = 0 keeps the wheels parallel.
 */
export function steerWheels(frame: Frame): void {
  const n = frame.numbers;
  const target = n[TARGET]!;
  const angle = n[STEERING]!;
  const most = n[STEERING_RATE]! * n[DRIFT]!;
  const way = target - angle;
  n[STEERING] = way > most ? angle + most : way < -most ? angle - most : target;
  turnFront(frame);
}

/** Sets the front wheels' cosines and sines to the steering angle of the state. */
export function turnFront(frame: Frame): void {
  const n = frame.numbers;
  const angle = n[STEERING]!;
  if (angle === n[STEERED]) return;
  n[STEERED] = angle;
  const tangent = Math.tan(angle);
  const share = n[STEERING_SHARE]!;
  const left = tangent / (1 - share * tangent);
  const right = tangent / (1 + share * tangent);
  n[COS + 2] = 1 / Math.sqrt(1 + left * left);
  n[COS + 3] = 1 / Math.sqrt(1 + right * right);
  n[SIN + 2] = left * n[COS + 2]!;
  n[SIN + 3] = right * n[COS + 3]!;
}
