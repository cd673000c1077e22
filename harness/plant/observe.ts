import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const { LOAD, RADIUS, SLIP_ACROSS, SLIP_ALONG, SPEED, VX, VY } = AT;

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
  const n = frame.numbers;
  const vx = n[VX]!;
  const vy = n[VY]!;
  const way = Math.sqrt(vx * vx + vy * vy);
  out.speed = vx < 0 ? -way : way;
  out.sideslip = way < STANDSTILL ? 0 : Math.atan2(vy, Math.abs(vx));
  for (let i = 0; i < 4; i++) {
    const roll = n[RADIUS + i]! * n[SPEED + i]!;
    const along = n[SLIP_ALONG + i]! + roll;
    const across = n[SLIP_ACROSS + i]!;
    const most = Math.max(Math.abs(roll), Math.abs(along), CRAWL);
    const isStill = Math.abs(along) + Math.abs(across) < STANDSTILL;
    out.slipAngle[i] = isStill ? 0 : Math.atan2(across, Math.abs(along));
    out.slipRatio[i] = -n[SLIP_ALONG + i]! / most;
    out.load[i] = n[LOAD + i]!;
  }
  const { slipAngle } = out;
  const rear = Math.abs(slipAngle[0]!) + Math.abs(slipAngle[1]!);
  const front = Math.abs(slipAngle[2]!) + Math.abs(slipAngle[3]!);
  out.balance = (front - rear) / 2;
}
