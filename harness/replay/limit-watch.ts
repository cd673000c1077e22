import { type Constants, createInputs, createOutputs, V } from '../../lib/index.ts';
import { createLimitCheck } from '../check/limit-check.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import type { EvaluatedBundle } from './evaluate-bundle.ts';
import { readInputs, readOutputs } from './read-row.ts';
import { inputWidth, outputWidth } from './row-layout.ts';

/** Holds a replay to the safety limits. */
export interface LimitWatch {
  /** Takes `count` ticks, as rows; see row-layout. */
  take(inputs: Int32Array, outputs: Int32Array, count: number): void;
  /** Takes what a step threw. */
  threw(error: unknown): void;
  verdicts(): LimitVerdict[];
}

/**
 * @param bundle the script that is replayed; mirrored inputs (S11) go through it, too
 * @param constants what it drives with
 */
export function createLimitWatch(bundle: EvaluatedBundle, constants: Constants): LimitWatch {
  const limits = createLimitCheck(constants, bundle.axlewright.createController);
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
        // The mirrored core (S11) may throw as well.
        try {
          limits.observe(tickInputs, tickOutputs);
        } catch (error) {
          limits.threw(error);
        }
      }
    },
    threw: limits.threw,
    verdicts: limits.verdicts,
  };
}
