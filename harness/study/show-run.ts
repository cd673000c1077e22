import { createBackEmf } from '../../lib/back-emf.ts';
import { type Constants, createInputs, Flag, type Layout, MISSING, V } from '../../lib/index.ts';
import { createStartSlip } from '../../lib/start-slip.ts';
import { createTraction } from '../../lib/traction.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
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

/** What was seen in a window. */
interface Seen {
  /** Bits of Found. */
  found: number;
  /** Straight starts from rest that ended in it. */
  starts: number;
  /** By how much each wheel is faster than the vehicle, mm/s. */
  excess: number[][];
}

/**
 * What the traction stage finds in a run, by the commands that the run holds; for each window also
 * how many straight starts there were to tell a lost front drive from, and by how much each wheel
 * is faster than the vehicle is taken to be: mean and standard deviation.
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
  const seen = windows.map((): Seen => ({ found: 0, starts: 0, excess: names.map(() => []) }));
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
      const now = stage(input, goal, steer[row]!);
      const at = input.timeMs / 1000;
      if (now.found !== found) told.push(`  ${at.toFixed(2)} s: ${describe(now.found, layout)}`);
      found = now.found;
      windows.forEach(({ from, to }, w) => {
        if (at >= from && at < to) add(seen[w]!, now);
      });
    }
  }
  return [
    'Found:',
    ...(told.length > 0 ? told : ['  nothing']),
    ...windows.flatMap((window, w) => windowText(window, names, seen[w]!, layout)),
  ].join('\n');
}

type Inputs = ReturnType<typeof createInputs>;

/** What a tick shows. */
interface Now {
  found: number;
  excess: number[];
  isHeld: boolean;
  hasStarted: boolean;
}

/** The stage, and the same parts once more to look inside. */
function createStage({ vehicle, setups }: Constants) {
  const windings = createWindings(vehicle);
  const traction = createTraction(vehicle, windings);
  traction.load(setups[0]!);
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const starts = vehicle[V.MOTORS] === 2 ? createStartSlip(vehicle, windings) : undefined;
  let last = [0, 0, 0, 0];
  let before = MISSING;
  return (input: Inputs, drive: readonly number[], steer: number): Now => {
    const { timeMs, batteryMv: mv, currentMa, wheelDegS } = input;
    const step = before === MISSING ? vehicle[V.TICK_MS]! : (timeMs - before) | 0;
    before = timeMs;
    const goal = [...drive, 0, 0, 0].slice(0, 4);
    traction.run([...goal], last, mv, currentMa, wheelDegS, steer, true, 1, step, step);
    motors.run(last, mv, currentMa, wheelDegS, ground.speed);
    const flags = ground.run(motors, steer, step);
    const hasStarted = starts?.run(motors, mv, ground.speed, last, steer, step) ?? false;
    last = goal;
    const excess = drive.map((_, m) => ground.along[m]! - ground.speed);
    return { found: traction.found, excess, isHeld: (flags & Flag.SPEED_HELD) !== 0, hasStarted };
  };
}

function add(seen: Seen, { found, excess, isHeld, hasStarted }: Now): void {
  seen.found |= found;
  if (hasStarted) seen.starts++;
  if (!isHeld) for (const [m, value] of excess.entries()) seen.excess[m]!.push(value);
}

function windowText(
  { from, to }: RunWindow,
  names: readonly string[],
  { found, starts, excess }: Seen,
  layout: Layout,
): string[] {
  const what = found === 0 ? 'nothing' : describe(found, layout);
  return [
    `${from} to ${to} s: found ${what}; straight starts from rest: ${starts}`,
    '  wheel less vehicle, mean ± standard deviation:',
    ...names.map((name, m) => {
      const list = excess[m]!;
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
