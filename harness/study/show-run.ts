import { createBackEmf } from '../../lib/back-emf.ts';
import {
  type Constants,
  createInputs,
  Flag,
  type Layout,
  MISSING,
  State,
  V,
} from '../../lib/index.ts';
import { createTraction } from '../../lib/traction.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWinding } from '../../lib/winding.ts';
import { UserError } from '../problems.ts';
import { foundBits } from '../replay/detections.ts';
import { readRun } from '../runs/read-run.ts';
import { motorNames } from '../runs/run-columns.ts';
import { fillInputs, runInputs } from '../runs/run-inputs.ts';

/** A stretch of a run, s. */
export interface RunWindow {
  from: number;
  to: number;
}

/**
 * What the traction stage finds in a run, by the commands that the run holds, and for each window
 * by how much each wheel is faster than the vehicle is taken to be: mean and standard deviation.
 *
 * @param constants of the vehicle; slot 0 is in force
 * @throws UserError if the run holds no commands, or the vehicle has no current sensors
 */
export async function showRun(
  run: string,
  constants: Constants,
  windows: readonly RunWindow[],
): Promise<string> {
  const { vehicle } = constants;
  if (vehicle[V.HAS_CURRENT] !== 1) throw unfit(run, 'the vehicle has no current sensors');
  const stage = createStage(constants);
  const layout = vehicle[V.LAYOUT] as Layout;
  const names = motorNames(layout);
  const values = windows.map(() => names.map((): number[] => []));
  const told: string[] = [];
  let found = 0;
  for await (const chunk of readRun(run)) {
    const drives = names.map((name) => chunk.columns.get(`drive_${name}_permille`));
    const steer = chunk.columns.get('steer_permille');
    const inputs = runInputs(chunk, layout);
    if (steer === undefined) throw unfit(run, 'it has no column steer_permille');
    const input = createInputs();
    for (let row = 0; row < chunk.rows; row++) {
      fillInputs(inputs, row, input);
      const goal = drives.map((drive) => drive?.[row] ?? Number.NaN);
      if (goal.some(Number.isNaN)) throw unfit(run, 'it has no commands of these motors');
      const seen = stage(input, goal, steer[row]!);
      const at = input.timeMs / 1000;
      if (seen.found !== found) told.push(`  ${at.toFixed(2)} s: ${describe(seen.found, layout)}`);
      found = seen.found;
      if (seen.isHeld) continue;
      windows.forEach(({ from, to }, w) => {
        if (at < from || at >= to) return;
        for (let m = 0; m < names.length; m++) values[w]![m]!.push(seen.excess[m]!);
      });
    }
  }
  return [
    'Found:',
    ...(told.length > 0 ? told : ['  nothing']),
    ...windows.flatMap((window, w) => windowText(window, names, values[w]!)),
  ].join('\n');
}

type Inputs = ReturnType<typeof createInputs>;

/** The stage, and the same parts once more to look inside. */
function createStage({ vehicle, setups }: Constants) {
  const windings = Array.from({ length: vehicle[V.MOTORS]! }, () => createWinding(vehicle));
  const traction = createTraction(vehicle, windings);
  traction.load(setups[0]!);
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  let last = [0, 0, 0, 0];
  let before = MISSING;
  return (input: Inputs, drive: readonly number[], steer: number) => {
    const { timeMs, batteryMv: mv, currentMa, wheelDegS } = input;
    const step = before === MISSING ? vehicle[V.TICK_MS]! : (timeMs - before) | 0;
    before = timeMs;
    const goal = [...drive, 0, 0, 0].slice(0, 4);
    traction.run([...goal], last, mv, currentMa, wheelDegS, steer, State.DRIVING, step, step);
    motors.run(last, mv, currentMa, wheelDegS, ground.speed);
    const flags = ground.run(motors, steer, step);
    last = goal;
    const excess = drive.map((_, m) => ground.along[m]! - ground.speed);
    return { found: traction.found, excess, isHeld: (flags & Flag.SPEED_HELD) !== 0 };
  };
}

function windowText(
  { from, to }: RunWindow,
  names: readonly string[],
  values: readonly number[][],
): string[] {
  return [
    `Wheel less vehicle, ${from} to ${to} s, mean ± standard deviation:`,
    ...names.map((name, m) => {
      const list = values[m]!;
      if (list.length === 0) return `  ${name}: no sample`;
      const mean = list.reduce((sum, value) => sum + value, 0) / list.length;
      const squares = list.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      const spread = Math.sqrt(squares / list.length);
      const verdict = Math.abs(mean) < spread ? 'within its noise' : 'beyond its noise';
      return `  ${name}: ${mean.toFixed(0)} ± ${spread.toFixed(0)} mm/s, ${verdict}`;
    }),
  ];
}

function describe(found: number, layout: Layout): string {
  const kinds = foundBits(layout)
    .filter(({ bit }) => (found & bit) !== 0)
    .map(({ kind, motor }) => (kind === 'frontFree' ? 'front drive lost' : `${kind} ${motor}`));
  return kinds.length > 0 ? kinds.join(', ') : 'nothing any more';
}

function unfit(run: string, why: string): UserError {
  const cure = 'Name a run that holds what was commanded, and the garage of its vehicle.';
  return new UserError([{ file: run, message: `${why}.`, cure }]);
}
