import { type Frame, HEATING } from './frame.ts';

/** Winding losses heat the windings, friction in the motors heats their housings. */
export function warmMotors(frame: Frame): void {
  const { state, power, motorCount, speedsBefore } = frame;
  const { speeds, friction } = state;
  for (let m = 0; m < motorCount; m++) {
    const twice = speeds[4 + m]! + speedsBefore[4 + m]!;
    power.rubbing[m] = (friction[4 + m]! * twice) / 2;
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
  const { heating, power } = frame;
  const { winding, housing } = frame.state;
  const at = m * HEATING;
  if (heating[at] !== frame.span[0]) prepare(frame, m);
  const a = heating[at + 3]!;
  const b = heating[at + 4]!;
  const c = heating[at + 5]!;
  const others = heating[at + 6]!;
  const scale = heating[at + 7]!;
  const tw = winding[m]!;
  const th = housing[m]!;
  const right = tw + a * (th - tw) + heating[at + 1]! * power.copper[m]!;
  const inflow = heating[at + 2]! * power.rubbing[m]!;
  const other = th + b * (tw - th) + c * (heating[at + 8]! - th) + inflow;
  winding[m] = (right * others + a * other) * scale;
  housing[m] = (other * (1 + a) + b * right) * scale;
}

/** What is the same in each step of a length, for motor `m`; its divisions are worth keeping. */
function prepare({ description, span, heating }: Frame, m: number): void {
  const { heat } = description.motors[m]!;
  const dt = span[0]!;
  const perWinding = dt / heat.winding;
  const perHousing = dt / heat.housing;
  const a = (perWinding * heat.windingToHousing) / 2;
  const b = (perHousing * heat.windingToHousing) / 2;
  const c = (perHousing * heat.housingToAmbient) / 2;
  const scale = 1 / ((1 + a) * (1 + b + c) - a * b);
  const row = [dt, perWinding, perHousing, a, b, c, 1 + b + c, scale, 2 * heat.ambientC];
  heating.set(row, m * HEATING);
}
