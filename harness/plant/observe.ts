import type { Frame } from './frame.ts';
import { VX, VY } from './state.ts';

/** What can be read off a moving vehicle beside its state; wheels in the usual order. */
export interface Observation {
  /** Speed of the centre of gravity, m/s, negative when it moves backwards. */
  speed: number;
  /** Sideslip angle of the centre of gravity, rad; 0 at a standstill. */
  sideslip: number;
  /** Direction of travel of each wheel against its own, rad, left positive; 0 at a standstill. */
  slipAngle: Float64Array;
  /** (R w - Vx) / max(|R w|, |Vx|, 0.1 m/s): it neither jumps nor grows without bounds at rest. */
  slipRatio: Float64Array;
  /** Wheel loads in the middle of the last step, N. */
  load: Float64Array;
  /** Mean |front slip angle| - mean |rear slip angle|, rad; positive = understeer. */
  balance: number;
}

/** Below this speed there is no direction of travel, m/s. */
const STANDSTILL = 0.02;
/** Slip is never taken against less than this, m/s. */
const CRAWL = 0.1;

/** An empty observation. */
export function createObservation(): Observation {
  const [slipAngle, slipRatio, load] = [0, 1, 2].map(() => new Float64Array(4));
  return {
    speed: 0,
    sideslip: 0,
    slipAngle: slipAngle!,
    slipRatio: slipRatio!,
    load: load!,
    balance: 0,
  };
}

/** Fills in an observation; the frame's contacts must be those of the state. */
export function observe(frame: Frame, out: Observation): void {
  const { contact, radius, state } = frame;
  const vx = state.body[VX]!;
  const vy = state.body[VY]!;
  const way = Math.sqrt(vx * vx + vy * vy);
  out.speed = vx < 0 ? -way : way;
  out.sideslip = way < STANDSTILL ? 0 : Math.atan2(vy, Math.abs(vx));
  for (let i = 0; i < 4; i++) {
    const roll = radius[i]! * state.speeds[i]!;
    const along = contact.along[i]! + roll;
    const across = contact.across[i]!;
    const most = Math.max(Math.abs(roll), Math.abs(along), CRAWL);
    const isStill = Math.abs(along) + Math.abs(across) < STANDSTILL;
    out.slipAngle[i] = isStill ? 0 : Math.atan2(across, Math.abs(along));
    out.slipRatio[i] = -contact.along[i]! / most;
    out.load[i] = state.force[8 + i]!;
  }
  const { slipAngle } = out;
  const rear = Math.abs(slipAngle[0]!) + Math.abs(slipAngle[1]!);
  const front = Math.abs(slipAngle[2]!) + Math.abs(slipAngle[3]!);
  out.balance = (front - rear) / 2;
}
