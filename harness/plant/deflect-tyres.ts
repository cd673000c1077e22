import type { Frame } from './frame.ts';
import { VX, VY, YAW_RATE } from './state.ts';

/**
 * Rolls the tyres on for `span[1]`, h: deflections u along and across each wheel follow
 * du/dt + Vr u / sigma = -Vs, so that in a steady state u / sigma is the theoretical slip
 * -Vs / Vr. No division by a speed: at a standstill the tyre is a spring.
 *
 * Source: Pacejka, Tyre and Vehicle Dynamics, ch. 7-8; Bernard and Clover, SAE 950311. The flow is
 * exact for constant velocities to second order in h and stable for any h: the exponential is
 * replaced by 1 / (1 + a + a^2/2). The frame's contacts must be those of the state.
 */
export function deflectTyres(frame: Frame): void {
  const { contact, tyre } = frame;
  const h = frame.span[1]!;
  const { deflection } = frame.state;
  for (let i = 0; i < 4; i++) {
    const sigma = tyre.relaxation[i]!;
    const rolling = contact.rolling[i]!;
    const a = rolling * h * tyre.perRelaxation[i]!;
    const q = 1 + a / 2;
    const g = 1 / (1 + a * q);
    let along = (deflection[i]! - contact.along[i]! * h * q) * g;
    let across = (deflection[i + 4]! - contact.across[i]! * h * q) * g;
    const slow = 4 * tyre.slowSpeed[i]!;
    if (rolling < slow) {
      // A tyre that hardly rolls slides rather than wind up further than its greatest force.
      const most = (sigma * tyre.peak[i]!) / (1 - rolling / slow);
      const length = Math.sqrt(along * along + across * across);
      if (length > most) {
        along *= most / length;
        across *= most / length;
      }
    }
    deflection[i] = along;
    deflection[i + 4] = across;
  }
}

/** Rolls the tyres on by the time they are behind, before their contacts change otherwise. */
export function catchUp(frame: Frame): void {
  const { behind } = frame.state;
  if (behind[0] === 0) return;
  frame.span[1] = behind[0]!;
  deflectTyres(frame);
  behind[0] = 0;
}

/** A wheel that slides without rolling takes its slip against this share of its speed. */
const SKID_SHARE = 0.2;

/**
 * Velocities of the contact points. The slip is taken against the rolling speed R |w|, which
 * gives the theoretical slip kappa / (1 + kappa), tan(alpha) / (1 + kappa); for a wheel near its
 * lock, against a share of the speed over ground, so that slip stays finite.
 */
export function measureContacts(frame: Frame): void {
  const { contact, px, py, cos, sin, radius } = frame;
  const { body, speeds } = frame.state;
  const vx = body[VX]!;
  const vy = body[VY]!;
  const yawRate = body[YAW_RATE]!;
  for (let i = 0; i < 4; i++) {
    const bx = vx - yawRate * py[i]!;
    const by = vy + yawRate * px[i]!;
    const cx = cos[i]! * bx + sin[i]! * by;
    const cy = cos[i]! * by - sin[i]! * bx;
    const roll = radius[i]! * speeds[i]!;
    contact.along[i] = cx - roll;
    contact.across[i] = cy;
    contact.rolling[i] = Math.max(Math.abs(roll), SKID_SHARE * (Math.abs(cx) + Math.abs(cy)));
  }
}
