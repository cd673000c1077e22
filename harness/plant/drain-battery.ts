import type { Frame } from './frame.ts';
import type { BatteryDescription } from './plant-description.ts';
import { CHARGE, DRAWN, SLOW_VOLTAGE } from './state.ts';

/** Draws the state's current for a step: dq/dt = -I / Q, dv1/dt = (R1 I - v1) / tau. */
export function drainBattery(frame: Frame): void {
  const dt = frame.span[0]!;
  const { battery } = frame.description;
  const { battery: state } = frame.state;
  state[CHARGE] = state[CHARGE]! - (state[DRAWN]! * dt) / battery.capacity;
  if (battery.slowTime === 0) return;
  const a = dt / battery.slowTime;
  const q = 1 + a / 2;
  const target = battery.slowResistance * state[DRAWN]!;
  state[SLOW_VOLTAGE] = (state[SLOW_VOLTAGE]! + a * q * target) / (1 + a * q);
}

/** Open-circuit voltage at a charge, linear between the points of the curve, V. */
export function openCircuit({ openCircuit: curve }: BatteryDescription, charge: number): number {
  const last = curve.length - 1;
  if (last === 0) return curve[0]!;
  const at = Math.min(Math.max(charge, 0), 1) * last;
  const i = Math.min(Math.floor(at), last - 1);
  return curve[i]! + (curve[i + 1]! - curve[i]!) * (at - i);
}
