import { V } from '../../lib/index.ts';
import { runColumns } from '../runs/run-columns.ts';
import { type RunInputs, runInputs } from '../runs/run-inputs.ts';
import { createRunWriter } from '../runs/write-run.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { packageVersion } from '../words/package-version.ts';
import type { ReplayedChunk } from './replay.ts';
import type { ReplayPlan } from './replay-plan.ts';
import { Out, outputWidth } from './row-layout.ts';

/** Writes the run that the core makes of another run's inputs. */
export interface RunSaver {
  take(replayed: ReplayedChunk): Promise<void>;
  finish(): Promise<void>;
  /** Takes back all that was written. */
  abort(): Promise<void>;
}

/** Outputs by column of a run; the drives follow. */
const OUTPUTS: Readonly<Record<string, Out>> = {
  steer_permille: Out.STEER,
  enable: Out.ENABLE,
  state: Out.STATE,
  cause: Out.CAUSE,
  flags: Out.FLAGS,
  throttle_permille: Out.THROTTLE,
  demand_permille: Out.DEMAND,
  cut_permille: Out.CUT,
  limit_permille: Out.LIMIT,
};

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
  const width = outputWidth(motors);
  const values = new Int32Array(writer.header.columns.length);

  async function take({ chunk, outputs }: ReplayedChunk): Promise<void> {
    const columns = inputColumns(runInputs(chunk, layout), names);
    let drive = 0;
    const outputAt = names.map((name) =>
      name.startsWith('drive_') ? Out.DRIVE + drive++ : OUTPUTS[name],
    );
    for (let row = 0; row < chunk.rows; row++) {
      for (let i = 0; i < names.length; i++) {
        const at = outputAt[i];
        values[i] = at === undefined ? columns[i]![row]! : outputs[row * width + at]!;
      }
      const full = writer.writeRow(values);
      if (full !== undefined) await full;
    }
  }

  return { take, finish: writer.finish, abort: writer.abort };
}

function inputColumns(inputs: RunInputs, names: readonly string[]): (Int32Array | undefined)[] {
  let motor = 0;
  const known: Record<string, Int32Array> = {
    time_ms: inputs.timeMs,
    throttle_us: inputs.throttleUs,
    steer_us: inputs.steerUs,
    input_age_ms: inputs.ageMs,
    slot: inputs.slot,
    guest: inputs.guest,
    battery_mv: inputs.batteryMv,
    yaw_rate_mrad_s: inputs.yawRateMradS,
  };
  return names.map((name) =>
    name.startsWith('current_') ? inputs.currentMa[motor++] : known[name],
  );
}
