import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const {
  CHARGE,
  DRAWN,
  OPEN_CIRCUIT,
  PACK_CAPACITY,
  PACK_SLOW_RESISTANCE,
  PACK_SLOW_TIME,
  SLOW_VOLTAGE,
  SPAN,
} = AT;

/** Draws the state's current for a step: dq/dt = -I / Q, dv1/dt = (R1 I - v1) / tau. */
export function drainBattery(frame: Frame): void {
  const n = frame.numbers;
  const dt = n[SPAN]!;
  n[CHARGE] = n[CHARGE]! - (n[DRAWN]! * dt) / n[PACK_CAPACITY]!;
  readCurve(frame);
  const slowTime = n[PACK_SLOW_TIME]!;
  if (slowTime === 0) return;
  const a = dt / slowTime;
  const q = 1 + a / 2;
  const target = n[PACK_SLOW_RESISTANCE]! * n[DRAWN]!;
  n[SLOW_VOLTAGE] = (n[SLOW_VOLTAGE]! + a * q * target) / (1 + a * q);
}

/** Sets the open-circuit voltage to that of the charge, linear between the points of the curve. */
export function readCurve({ numbers, curve }: Frame): void {
  const last = curve.length - 1;
  const at = Math.min(Math.max(numbers[CHARGE]!, 0), 1) * last;
  const i = Math.min(Math.floor(at), Math.max(last - 1, 0));
  const next = curve[Math.min(i + 1, last)]!;
  numbers[OPEN_CIRCUIT] = curve[i]! + (next - curve[i]!) * (at - i);
}
