import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const {
  ACROSS,
  ALONG,
  BEHIND,
  COS,
  DRIFT,
  PEAK,
  PER_RELAXATION,
  PX,
  PY,
  RADIUS,
  RELAXATION,
  ROLLING,
  SIN,
  SLIP_ACROSS,
  SLIP_ALONG,
  SLOW_SPEED,
  SPEED,
  VX,
  VY,
  YAW_RATE,
} = AT;

/**
 * Rolls the tyres on for DRIFT, h: deflections u along and across each wheel follow
 * du/dt + Vr u / sigma = -Vs, so that in a steady state u / sigma is the theoretical slip
 * -Vs / Vr. No division by a speed: at a standstill the tyre is a spring.
 *
 * Source: Pacejka, Tyre and Vehicle Dynamics, ch. 7-8; Bernard and Clover, SAE 950311. The flow is
 * exact for constant velocities to second order in h and stable for any h: the exponential is
 * replaced by 1 / (1 + a + a^2/2). The frame's contacts must be those of the state.
 */
export function deflectTyres(frame: Frame): void {
  const n = frame.numbers;
  const h = n[DRIFT]!;
  for (let i = 0; i < 4; i++) {
    const rolling = n[ROLLING + i]!;
    const a = rolling * h * n[PER_RELAXATION + i]!;
    const q = 1 + a / 2;
    const g = 1 / (1 + a * q);
    let along = (n[ALONG + i]! - n[SLIP_ALONG + i]! * h * q) * g;
    let across = (n[ACROSS + i]! - n[SLIP_ACROSS + i]! * h * q) * g;
    const slow = 4 * n[SLOW_SPEED + i]!;
    if (rolling < slow) {
      // A tyre that hardly rolls slides rather than wind up further than its greatest force.
      const most = (n[RELAXATION + i]! * n[PEAK + i]!) / (1 - rolling / slow);
      const length = Math.sqrt(along * along + across * across);
      if (length > most) {
        along *= most / length;
        across *= most / length;
      }
    }
    n[ALONG + i] = along;
    n[ACROSS + i] = across;
  }
}

/** Rolls the tyres on by the time they are behind, before their contacts change otherwise. */
export function catchUp(frame: Frame): void {
  const n = frame.numbers;
  if (n[BEHIND] === 0) return;
  n[DRIFT] = n[BEHIND]!;
  deflectTyres(frame);
  n[BEHIND] = 0;
}

/** A wheel that slides without rolling takes its slip against this share of its speed. */
const SKID_SHARE = 0.2;

/**
 * Velocities of the contact points. The slip is taken against the rolling speed R |w|, which
 * gives the theoretical slip kappa / (1 + kappa), tan(alpha) / (1 + kappa); for a wheel near its
 * lock, against a share of the speed over ground, so that slip stays finite.
 */
export function measureContacts(frame: Frame): void {
  const n = frame.numbers;
  const vx = n[VX]!;
  const vy = n[VY]!;
  const yawRate = n[YAW_RATE]!;
  for (let i = 0; i < 4; i++) {
    const bx = vx - yawRate * n[PY + i]!;
    const by = vy + yawRate * n[PX + i]!;
    const cos = n[COS + i]!;
    const sin = n[SIN + i]!;
    const cx = cos * bx + sin * by;
    const cy = cos * by - sin * bx;
    const roll = n[RADIUS + i]! * n[SPEED + i]!;
    n[SLIP_ALONG + i] = cx - roll;
    n[SLIP_ACROSS + i] = cy;
    n[ROLLING + i] = Math.max(Math.abs(roll), SKID_SHARE * (Math.abs(cx) + Math.abs(cy)));
  }
}
