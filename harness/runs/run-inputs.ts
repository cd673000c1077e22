import type { Layout } from '../../lib/codes.ts';
import { type Inputs, MISSING } from '../../lib/signals.ts';
import type { RunChunk } from './run-chunk.ts';
import { motorNames } from './run-columns.ts';

/** What the core consumes, column by column; fields and units as in `Inputs`. */
export interface RunInputs {
  rows: number;
  timeMs: Int32Array;
  throttleUs: Int32Array;
  steerUs: Int32Array;
  ageMs: Int32Array;
  slot: Int32Array;
  guest: Int32Array;
  batteryMv: Int32Array;
  yawRateMradS: Int32Array;
  currentMa: Int32Array[];
  wheelDegS: Int32Array[];
}

/**
 * The inputs in a chunk. A column the run does not have is filled in: age, slot and guest are 0,
 * every sensor is MISSING.
 *
 * @param layout decides the motors
 */
export function runInputs(chunk: RunChunk, layout: Layout): RunInputs {
  const column = (name: string, absent: number): Int32Array =>
    chunk.columns.get(name) ?? new Int32Array(chunk.rows).fill(absent);
  return {
    rows: chunk.rows,
    timeMs: column('time_ms', MISSING),
    throttleUs: column('throttle_us', MISSING),
    steerUs: column('steer_us', MISSING),
    ageMs: column('input_age_ms', 0),
    slot: column('slot', 0),
    guest: column('guest', 0),
    batteryMv: column('battery_mv', MISSING),
    yawRateMradS: column('yaw_rate_mrad_s', MISSING),
    currentMa: motorNames(layout).map((motor) => column(`current_${motor}_ma`, MISSING)),
    wheelDegS: motorNames(layout).map((motor) => column(`wheel_${motor}_deg_s`, MISSING)),
  };
}

/** Writes one row into the record that the core is given. */
export function fillInputs(from: RunInputs, row: number, into: Inputs): void {
  into.timeMs = from.timeMs[row]!;
  into.throttleUs = from.throttleUs[row]!;
  into.steerUs = from.steerUs[row]!;
  into.ageMs = from.ageMs[row]!;
  into.slot = from.slot[row]!;
  into.guest = from.guest[row]!;
  into.batteryMv = from.batteryMv[row]!;
  into.yawRateMradS = from.yawRateMradS[row]!;
  for (let motor = 0; motor < from.currentMa.length; motor++) {
    into.currentMa[motor] = from.currentMa[motor]![row]!;
    into.wheelDegS[motor] = from.wheelDegS[motor]![row]!;
  }
}
