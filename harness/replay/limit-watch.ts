import {
  type Constants,
  type Controller,
  createInputs,
  createOutputs,
  type Inputs,
  type Outputs,
  V,
} from '../../lib/index.ts';
import { createLimitCheck } from '../check/limit-check.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import { In, inputWidth, Out, outputWidth } from './row-layout.ts';

/** Holds a replay to the safety limits. */
export interface LimitWatch {
  /** Takes `count` ticks, as rows; see row-layout. */
  take(inputs: Int32Array, outputs: Int32Array, count: number): void;
  verdicts(): LimitVerdict[];
}

/**
 * @param bundle the script that is replayed; mirrored inputs (S11) go through it, too
 * @param constants what it drives with
 */
export function createLimitWatch(bundle: string, constants: Constants): LimitWatch {
  const createController = new Function(`${bundle}\nreturn axlewright.createController;`)() as (
    constants: Constants,
  ) => Controller;
  const limits = createLimitCheck(constants, createController);
  const motors = constants.vehicle[V.MOTORS]!;
  const inWidth = inputWidth(motors);
  const outWidth = outputWidth(motors);
  const tickInputs = createInputs();
  const tickOutputs = createOutputs();
  return {
    take(inputs, outputs, count) {
      for (let row = 0; row < count; row++) {
        readInputs(inputs, row * inWidth, motors, tickInputs);
        readOutputs(outputs, row * outWidth, motors, tickOutputs);
        limits.observe(tickInputs, tickOutputs);
      }
    },
    verdicts: limits.verdicts,
  };
}

function readInputs(rows: Int32Array, at: number, motors: number, into: Inputs): void {
  into.timeMs = rows[at + In.TIME]!;
  into.throttleUs = rows[at + In.THROTTLE]!;
  into.steerUs = rows[at + In.STEER]!;
  into.ageMs = rows[at + In.AGE]!;
  into.slot = rows[at + In.SLOT]!;
  into.guest = rows[at + In.GUEST]!;
  into.batteryMv = rows[at + In.BATTERY]!;
  into.yawRateMradS = rows[at + In.YAW_RATE]!;
  for (let i = 0; i < motors; i++) {
    into.currentMa[i] = rows[at + In.CURRENT + i]!;
    into.wheelDegS[i] = rows[at + In.CURRENT + motors + i]!;
  }
}

function readOutputs(rows: Int32Array, at: number, motors: number, into: Outputs): void {
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
  into.confidence = rows[at + Out.CONFIDENCE]!;
  into.assist = rows[at + Out.ASSIST]!;
  for (let i = 0; i < motors; i++) into.drive[i] = rows[at + Out.DRIVE + i]!;
}
