import type { Layout } from '../../lib/codes.ts';
import { In, inputWidth, Out, outputWidth } from '../replay/row-layout.ts';
import { type RunChunk, runHeader } from '../runs/run-chunk.ts';
import { motorNames, runColumns } from '../runs/run-columns.ts';
import type { TickRows } from './tick-rows.ts';

/** The ticks of a drive as one chunk of a run, with every column the core knows. */
export function rowsChunk(rows: TickRows, layout: Layout): RunChunk {
  const names = runColumns(layout).map((column) => column.name);
  const inWidth = inputWidth(rows.motors);
  const outWidth = outputWidth(rows.motors);
  const motors = motorNames(layout);
  const column = (name: string): Int32Array => {
    const values = new Int32Array(rows.count);
    const input = inputAt(name, motors);
    const [from, width, at] =
      input === undefined
        ? [rows.outputs, outWidth, outputAt(name, motors)]
        : [rows.inputs, inWidth, input];
    for (let row = 0; row < rows.count; row++) values[row] = from[row * width + at]!;
    return values;
  };
  return {
    header: runHeader(names),
    rows: rows.count,
    columns: new Map(names.map((name) => [name, column(name)])),
    extra: new Map(),
    // The header is the first line.
    lines: Int32Array.from({ length: rows.count }, (_, row) => row + 2),
  };
}

const INPUTS: Readonly<Record<string, In>> = {
  time_ms: In.TIME,
  throttle_us: In.THROTTLE,
  steer_us: In.STEER,
  input_age_ms: In.AGE,
  slot: In.SLOT,
  guest: In.GUEST,
  battery_mv: In.BATTERY,
  yaw_rate_mrad_s: In.YAW_RATE,
};

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

function inputAt(name: string, motors: readonly string[]): number | undefined {
  const motor = motors.findIndex((each) => name === `current_${each}_ma`);
  return motor < 0 ? INPUTS[name] : In.CURRENT + motor;
}

function outputAt(name: string, motors: readonly string[]): number {
  const motor = motors.findIndex((each) => name === `drive_${each}_permille`);
  const at = motor < 0 ? OUTPUTS[name] : Out.DRIVE + motor;
  if (at === undefined) throw new RangeError(`no tick holds a column "${name}"`);
  return at;
}
