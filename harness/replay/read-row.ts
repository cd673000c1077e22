import { type Inputs, MISSING, type Outputs } from '../../lib/index.ts';
import { In, Out } from './row-layout.ts';

/**
 * What the core consumed in the tick whose row of inputs begins at `at`: what no hub can measure is
 * missing to it.
 */
export function readInputs(rows: Int32Array, at: number, motors: number, into: Inputs): void {
  into.timeMs = rows[at + In.TIME]!;
  into.throttleUs = measured(rows[at + In.THROTTLE]!);
  into.steerUs = measured(rows[at + In.STEER]!);
  into.ageMs = measured(rows[at + In.AGE]!);
  into.slot = rows[at + In.SLOT]!;
  into.guest = rows[at + In.GUEST]!;
  into.batteryMv = measured(rows[at + In.BATTERY]!);
  into.yawRateMradS = measured(rows[at + In.YAW_RATE]!);
  for (let i = 0; i < motors; i++) {
    into.currentMa[i] = measured(rows[at + In.CURRENT + i]!);
    into.wheelDegS[i] = measured(rows[at + In.CURRENT + motors + i]!);
  }
}

/** Inputs but the time have 16 bits; see lib/signals.ts. */
function measured(value: number): number {
  return (value << 16) >> 16 === value ? value : MISSING;
}

/** What it gave, from the row of outputs at `at`. */
export function readOutputs(rows: Int32Array, at: number, motors: number, into: Outputs): void {
  into.enable = rows[at + Out.ENABLE]!;
  into.steer = rows[at + Out.STEER]!;
  into.state = rows[at + Out.STATE]!;
  into.cause = rows[at + Out.CAUSE]!;
  into.flags = rows[at + Out.FLAGS]!;
  into.slot = rows[at + Out.SLOT]!;
  into.throttle = rows[at + Out.THROTTLE]!;
  into.demand = rows[at + Out.DEMAND]!;
  into.cut = rows[at + Out.CUT]!;
  into.limit = rows[at + Out.LIMIT]!;
  into.speed = rows[at + Out.SPEED]!;
  into.found = rows[at + Out.FOUND]!;
  into.spin = rows[at + Out.SPIN]!;
  into.free = rows[at + Out.FREE]!;
  into.jam = rows[at + Out.JAM]!;
  into.assist = rows[at + Out.ASSIST]!;
  for (let i = 0; i < motors; i++) into.drive[i] = rows[at + Out.DRIVE + i]!;
}
