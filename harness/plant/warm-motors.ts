import { AT, HEATING } from './at.ts';
import type { Frame } from './frame.ts';

const {
  COPPER,
  HEAT,
  HOUSING,
  MOTOR_FRICTION,
  MOTOR_SPEED,
  MOTOR_SPEED_BEFORE,
  RUBBING,
  SPAN,
  WINDING,
} = AT;

/** Winding losses heat the windings, friction in the motors heats their housings. */
export function warmMotors(frame: Frame): void {
  const { numbers: n, motorCount } = frame;
  for (let m = 0; m < motorCount; m++) {
    const twice = n[MOTOR_SPEED + m]! + n[MOTOR_SPEED_BEFORE + m]!;
    n[RUBBING + m] = (n[MOTOR_FRICTION + m]! * twice) / 2;
    warm(frame, m);
  }
}

/**
 * Two bodies: Cw dTw/dt = P - G (Tw - Th), Ch dTh/dt = Q + G (Tw - Th) - H (Th - Ta); one step of
 * the trapezoidal rule, second order and stable for any step.
 *
 * @param frame heat P in the windings and Q in the housings in its `power`, W; entry `m` of the
 *   temperatures in its state, °C, is updated
 * @param m which motor
 */
export function warm(frame: Frame, m: number): void {
  const n = frame.numbers;
  const at = HEAT + m * HEATING;
  if (n[at] !== n[SPAN]) prepare(frame, m);
  const a = n[at + 3]!;
  const b = n[at + 4]!;
  const c = n[at + 5]!;
  const others = n[at + 6]!;
  const scale = n[at + 7]!;
  const tw = n[WINDING + m]!;
  const th = n[HOUSING + m]!;
  const right = tw + a * (th - tw) + n[at + 1]! * n[COPPER + m]!;
  const inflow = n[at + 2]! * n[RUBBING + m]!;
  const other = th + b * (tw - th) + c * (n[at + 8]! - th) + inflow;
  n[WINDING + m] = (right * others + a * other) * scale;
  n[HOUSING + m] = (other * (1 + a) + b * right) * scale;
}

/** What is the same in each step of a length, for motor `m`; its divisions are worth keeping. */
function prepare({ description, numbers }: Frame, m: number): void {
  const { heat } = description.motors[m]!;
  const dt = numbers[SPAN]!;
  const perWinding = dt / heat.winding;
  const perHousing = dt / heat.housing;
  const a = (perWinding * heat.windingToHousing) / 2;
  const b = (perHousing * heat.windingToHousing) / 2;
  const c = (perHousing * heat.housingToAmbient) / 2;
  const scale = 1 / ((1 + a) * (1 + b + c) - a * b);
  const row = [dt, perWinding, perHousing, a, b, c, 1 + b + c, scale, 2 * heat.ambientC];
  numbers.set(row, HEAT + m * HEATING);
}
