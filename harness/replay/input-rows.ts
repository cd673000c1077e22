import type { Layout } from '../../lib/index.ts';
import type { RunChunk } from '../runs/run-chunk.ts';
import { runInputs } from '../runs/run-inputs.ts';
import { In, inputWidth } from './row-layout.ts';

/** Rows of inputs, see row-layout, of a chunk of a run. */
export function inputRows(chunk: RunChunk, layout: Layout): Int32Array {
  const inputs = runInputs(chunk, layout);
  const width = inputWidth(inputs.currentMa.length);
  const rows = new Int32Array(inputs.rows * width);
  const put = (at: number, column: Int32Array): void => {
    for (let i = 0, to = at; i < inputs.rows; i++, to += width) rows[to] = column[i]!;
  };
  put(In.TIME, inputs.timeMs);
  put(In.THROTTLE, inputs.throttleUs);
  put(In.STEER, inputs.steerUs);
  put(In.AGE, inputs.ageMs);
  put(In.SLOT, inputs.slot);
  put(In.GUEST, inputs.guest);
  put(In.BATTERY, inputs.batteryMv);
  put(In.YAW_RATE, inputs.yawRateMradS);
  inputs.currentMa.forEach((current, motor) => {
    put(In.CURRENT + motor, current);
  });
  inputs.wheelDegS.forEach((wheel, motor) => {
    put(In.CURRENT + inputs.currentMa.length + motor, wheel);
  });
  return rows;
}
