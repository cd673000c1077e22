import { V } from '../../lib/index.ts';
import { packageVersion } from '../../targets/package-version.ts';
import { motorNames, runColumns } from '../runs/run-columns.ts';
import { createRunWriter } from '../runs/write-run.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import type { ReplayedChunk } from './replay.ts';
import type { ReplayPlan } from './replay-plan.ts';
import { inputAt, outputAt } from './row-columns.ts';
import { inputWidth, outputWidth } from './row-layout.ts';

/** Writes the run that the core makes of another run's inputs. */
export interface RunSaver {
  take(replayed: ReplayedChunk): Promise<void>;
  finish(): Promise<void>;
  /** Takes back all that was written. */
  abort(): Promise<void>;
}

/**
 * Begins such a run.
 *
 * @param path where to write it
 * @param origin how its inputs came about, a sentence
 * @throws UserError if the file exists or cannot be written
 */
export async function createRunSaver(
  path: string,
  plan: ReplayPlan,
  origin: string,
): Promise<RunSaver> {
  const { constants, metadata } = plan;
  const layout = constants.vehicle[V.LAYOUT]!;
  const names = runColumns(layout).map((column) => column.name);
  const writer = await createRunWriter(path, names, {
    metadata: {
      layout,
      vehicle: plan.vehicle,
      setups: plan.setups,
      setupHash: constantsHash(constants),
      constants,
      coreVersion: packageVersion(),
      origin,
      // The replay began with the core's first tick, whatever the run it took the inputs from did.
      startsAtPowerUp: true,
      ...(metadata?.surface !== undefined && { surface: metadata.surface }),
      ...(metadata?.notes !== undefined && { notes: metadata.notes }),
    },
  });
  const motors = constants.vehicle[V.MOTORS]!;
  const motorList = motorNames(layout);
  const places = names.map((name) => {
    const input = inputAt(name, motorList);
    return input === undefined
      ? { isInput: false, at: outputAt(name, motorList) }
      : { isInput: true, at: input };
  });
  const inWidth = inputWidth(motors);
  const outWidth = outputWidth(motors);
  const values = new Int32Array(names.length);

  async function take({ chunk, inputs, outputs }: ReplayedChunk): Promise<void> {
    for (let row = 0; row < chunk.rows; row++) {
      places.forEach(({ isInput, at }, i) => {
        values[i] = isInput ? inputs[row * inWidth + at]! : outputs[row * outWidth + at]!;
      });
      const full = writer.writeRow(values);
      if (full !== undefined) await full;
    }
  }

  return { take, finish: writer.finish, abort: writer.abort };
}
