import type { Frame } from './frame.ts';
import type { HeatDescription } from './plant-description.ts';

/** Winding losses heat the windings, friction in the motors heats their housings. */
export function warmMotors(frame: Frame): void {
  const { description, state, power, motorCount, speedsBefore } = frame;
  for (let m = 0; m < motorCount; m++) {
    const twice = state.speeds[4 + m]! + speedsBefore[4 + m]!;
    power.rubbing[m] = (state.friction[4 + m]! * twice) / 2;
    warm(description.motors[m]!.heat, power, state, frame.span, m);
  }
}

/**
 * Two bodies: Cw dTw/dt = P - G (Tw - Th), Ch dTh/dt = Q + G (Tw - Th) - H (Th - Ta); one step of
 * the trapezoidal rule, second order and stable for any step.
 *
 * @param flows heat P in the windings and Q in the housings, W
 * @param bodies their temperatures, °C; entry `m` is updated
 * @param span length of the step, s
 * @param m which motor
 */
export function warm(
  heat: HeatDescription,
  flows: { copper: Float64Array; rubbing: Float64Array },
  bodies: { winding: Float64Array; housing: Float64Array },
  span: Float64Array,
  m: number,
): void {
  const dt = span[0]!;
  const perWinding = dt / heat.winding;
  const perHousing = dt / heat.housing;
  const a = (perWinding * heat.windingToHousing) / 2;
  const b = (perHousing * heat.windingToHousing) / 2;
  const c = (perHousing * heat.housingToAmbient) / 2;
  const tw = bodies.winding[m]!;
  const th = bodies.housing[m]!;
  const right = tw + a * (th - tw) + perWinding * flows.copper[m]!;
  const other = th + b * (tw - th) + c * (2 * heat.ambientC - th) + perHousing * flows.rubbing[m]!;
  const scale = 1 / ((1 + a) * (1 + b + c) - a * b);
  bodies.winding[m] = (right * (1 + b + c) + a * other) * scale;
  bodies.housing[m] = (other * (1 + a) + b * right) * scale;
}
