import type { Frame } from './frame.ts';
import { CHARGE, DRAWN, OPEN_CIRCUIT, SLOW_VOLTAGE } from './state.ts';

/** Draws the state's current for a step: dq/dt = -I / Q, dv1/dt = (R1 I - v1) / tau. */
export function drainBattery(frame: Frame): void {
  const dt = frame.span[0]!;
  const { battery } = frame.description;
  const { battery: state } = frame.state;
  state[CHARGE] = state[CHARGE]! - (state[DRAWN]! * dt) / battery.capacity;
  readCurve(frame);
  if (battery.slowTime === 0) return;
  const a = dt / battery.slowTime;
  const q = 1 + a / 2;
  const target = battery.slowResistance * state[DRAWN]!;
  state[SLOW_VOLTAGE] = (state[SLOW_VOLTAGE]! + a * q * target) / (1 + a * q);
}

/** Sets the open-circuit voltage to that of the charge, linear between the points of the curve. */
export function readCurve(frame: Frame): void {
  const { openCircuit: curve } = frame.description.battery;
  const { battery } = frame.state;
  const last = curve.length - 1;
  const at = Math.min(Math.max(battery[CHARGE]!, 0), 1) * last;
  const i = Math.min(Math.floor(at), Math.max(last - 1, 0));
  const next = curve[Math.min(i + 1, last)]!;
  battery[OPEN_CIRCUIT] = curve[i]! + (next - curve[i]!) * (at - i);
}
