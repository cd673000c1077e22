import type { Frame } from './frame.ts';

/**
 * Moves the steering on by half a step at the servo's rate, and turns the front wheels: with T the
 * tangent of the single-track angle, cot(left) = 1/T - a t/(2 L), cot(right) = 1/T + a t/(2 L);
 * a = 1 is Ackermann's condition, a = 0 keeps the wheels parallel.
 */
export function steerWheels(frame: Frame): void {
  const { lock, rate } = frame.description.steering;
  const { steering } = frame.state;
  const target = (Math.min(Math.max(frame.command[4]!, -1000), 1000) / 1000) * lock;
  const most = rate * frame.span[1]!;
  const way = target - steering[0]!;
  steering[0] = way > most ? steering[0]! + most : way < -most ? steering[0]! - most : target;
  turnFront(frame);
}

/** Sets the front wheels' cosines and sines to the steering angle of the state. */
export function turnFront(frame: Frame): void {
  const { cos, sin, steered, description } = frame;
  const angle = frame.state.steering[0]!;
  if (angle === steered[0]) return;
  steered[0] = angle;
  const { trackFront, cgToFront, cgToRear } = description.body;
  const tangent = Math.tan(angle);
  const share = (description.steering.ackermann * trackFront) / (2 * (cgToFront + cgToRear));
  const left = tangent / (1 - share * tangent);
  const right = tangent / (1 + share * tangent);
  cos[2] = 1 / Math.sqrt(1 + left * left);
  cos[3] = 1 / Math.sqrt(1 + right * right);
  sin[2] = left * cos[2]!;
  sin[3] = right * cos[3]!;
}
