import type { Inputs } from '../../lib/signals.ts';

/** A tick's inputs as the integers of one row of a plan; ROW_WIDTH of them. */
export function rowOf(inputs: Inputs): number[] {
  return [
    inputs.timeMs,
    inputs.throttleUs,
    inputs.steerUs,
    inputs.ageMs,
    inputs.slot,
    inputs.guest,
    inputs.batteryMv,
    inputs.yawRateMradS,
    ...inputs.currentMa.slice(0, 4),
    ...inputs.wheelDegS.slice(0, 4),
  ];
}
