import { type Inputs, type Outputs, V } from '../../lib/index.ts';
import { In, inputWidth, Out, outputWidth } from '../replay/row-layout.ts';

/** Every tick of a drive as a run holds it; rows as in replay/row-layout. */
export interface TickRows {
  motors: number;
  count: number;
  inputs: Int32Array;
  outputs: Int32Array;
}

/** @param most room for so many ticks */
export function createTickRows(vehicle: readonly number[], most: number): TickRows {
  const motors = vehicle[V.MOTORS]!;
  return {
    motors,
    count: 0,
    inputs: new Int32Array(most * inputWidth(motors)),
    outputs: new Int32Array(most * outputWidth(motors)),
  };
}

/** Adds what a tick consumed and gave; fractions are cut off. */
export function addTick(rows: TickRows, inputs: Inputs, outputs: Outputs): void {
  const { motors } = rows;
  const r = rows.count * inputWidth(motors);
  const to = rows.inputs;
  to[r + In.TIME] = inputs.timeMs;
  to[r + In.THROTTLE] = inputs.throttleUs;
  to[r + In.STEER] = inputs.steerUs;
  to[r + In.AGE] = inputs.ageMs;
  to[r + In.SLOT] = inputs.slot;
  to[r + In.GUEST] = inputs.guest;
  to[r + In.BATTERY] = inputs.batteryMv;
  to[r + In.YAW_RATE] = inputs.yawRateMradS;
  for (let m = 0; m < motors; m++) {
    to[r + In.CURRENT + m] = inputs.currentMa[m]!;
    to[r + In.CURRENT + motors + m] = inputs.wheelDegS[m]!;
  }
  addOutputs(rows, outputs);
  rows.count++;
}

function addOutputs({ motors, count, outputs: to }: TickRows, outputs: Outputs): void {
  const o = count * outputWidth(motors);
  to[o + Out.ENABLE] = outputs.enable;
  to[o + Out.STEER] = outputs.steer;
  to[o + Out.STATE] = outputs.state;
  to[o + Out.CAUSE] = outputs.cause;
  to[o + Out.FLAGS] = outputs.flags;
  to[o + Out.SLOT] = outputs.slot;
  to[o + Out.THROTTLE] = outputs.throttle;
  to[o + Out.DEMAND] = outputs.demand;
  to[o + Out.CUT] = outputs.cut;
  to[o + Out.LIMIT] = outputs.limit;
  to[o + Out.SPEED] = outputs.speed;
  to[o + Out.FOUND] = outputs.found;
  to[o + Out.SPIN] = outputs.spin;
  to[o + Out.FREE] = outputs.free;
  to[o + Out.JAM] = outputs.jam;
  to[o + Out.ASSIST] = outputs.assist;
  for (let m = 0; m < motors; m++) to[o + Out.DRIVE + m] = outputs.drive[m]!;
}
