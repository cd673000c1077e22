import { type Constants, V } from '../../lib/index.ts';
import type { Finding } from '../report/report-data.ts';
import type { RunChunk } from '../runs/run-chunk.ts';
import { createArmingWatch } from './arming-watch.ts';
import { driveRows } from './drive-rows.ts';
import { createOpenLoopWatch } from './open-loop-watch.ts';
import { In, inputWidth, outputWidth } from './row-layout.ts';
import { createRunClock } from './run-clock.ts';
import { createSensorWatch } from './sensor-watch.ts';
import { createUnitWatch } from './unit-watch.ts';

/** Gathers what is to be said of a run as a whole, at its beginning. */
export interface RunNotes {
  /** @param inputs rows of the chunk, see row-layout; `outputs` those that were recomputed */
  take(chunk: RunChunk, inputs: Int32Array, outputs: Int32Array): void;
  finish(): Finding[];
  /** The flags of the core that these findings say already: bits of Flag. */
  said(): number;
}

/** @param constants what is driven with */
export function createRunNotes(constants: Constants): RunNotes {
  const motors = constants.vehicle[V.MOTORS]!;
  const clock = createRunClock();
  const arming = createArmingWatch(constants);
  const sensors = createSensorWatch(constants);
  const loop = createOpenLoopWatch(constants);
  const units = createUnitWatch(constants);

  function take(chunk: RunChunk, inputs: Int32Array, outputs: Int32Array): void {
    const drives = driveRows(chunk, constants.vehicle[V.LAYOUT]!, outputs);
    for (let row = 0; row < chunk.rows; row++) {
      const inputAt = row * inputWidth(motors);
      const stepMs = clock.step(inputs[inputAt + In.TIME]!);
      const outputAt = row * outputWidth(motors);
      arming.observe(stepMs, inputs, inputAt, outputs, outputAt);
      sensors.observe(inputs, inputAt);
      loop.observe(drives, row * motors, outputs, outputAt);
      units.observe(stepMs, inputs, inputAt, drives, row * motors);
    }
  }

  return {
    take,
    finish: () => [arming, sensors, units, loop].flatMap((watch) => watch.finish()),
    said: sensors.said,
  };
}
