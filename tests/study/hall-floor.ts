import { fileURLToPath } from 'node:url';
import { bake } from '../../harness/setup/bake.ts';
import { loadGarage } from '../../harness/setup/load-garage.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { type Constants, S } from '../../lib/constants.ts';
import { createEvidence } from '../../lib/evidence.ts';
import { createTraction } from '../../lib/traction.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
import { readOut } from '../runs/scratch.ts';

/** A row of the run, and what the stage makes of it. */
export interface HallRow {
  /** Time, s. */
  t: number;
  drive: number[];
  current: number[];
  steer: number;
  /** Speed of each tyre and of the vehicle, mm/s. */
  wheel: number[];
  speed: number;
  /** By how much each wheel is faster than the vehicle is taken to be, mm/s. */
  excess: number[];
  found: number;
  /** Evidence over its threshold h, for each motor. */
  spin: number[];
  free: number[];
  jam: number[];
}

export const HALL_RUN = fileURLToPath(new URL('../fixtures/runs/hall-floor.csv', import.meta.url));
const HALL_GARAGE = fileURLToPath(new URL('../fixtures/garages/reference-car', import.meta.url));

/**
 * Feeds tests/fixtures/runs/hall-floor.csv to the stage: the commands are those of the run's own
 * controller. The garage is tests/fixtures/garages/reference-car; nothing is made to fit the run.
 */
export async function hallFloor(): Promise<HallRow[]> {
  const constants = await hallConstants();
  const { vehicle } = constants;
  const words = constants.setups[0]!;
  const windings = createWindings(vehicle);
  const traction = createTraction(vehicle, windings);
  traction.load(words);
  // The same parts once more, to look inside.
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const evidence = createEvidence(vehicle);
  evidence.load(words);
  const { rows } = await readOut(HALL_RUN);
  let before = rows[0]!;
  let last = [0, 0, 0, 0];
  return rows.map((row) => {
    const [time, , , , mv, left, right, , driveLeft, driveRight, steer] = row as number[];
    const dt = time! - before[0]! || 10;
    const current = [left!, right!, 0, 0];
    const goal = [driveLeft!, driveRight!, 0, 0];
    traction.run([...goal], last, mv!, current, [], steer!, true, 1, dt, dt);
    motors.run(last, mv!, current, [], ground.speed);
    ground.run(motors, steer!, dt);
    evidence.run(motors, ground, last, dt);
    const over = (sums: number[], h: number) => [0, 1].map((m) => sums[m]! / (words[h]! / 100));
    const result = {
      t: time! / 1000,
      drive: last.slice(0, 2),
      current: current.slice(0, 2),
      steer: steer!,
      wheel: motors.wheel.slice(0, 2),
      speed: traction.ground.speed,
      excess: [0, 1].map((m) => ground.along[m]! - ground.speed),
      found: traction.found,
      spin: over(evidence.spin, S.SPIN_H),
      free: over(evidence.free, S.FREE_H),
      jam: over(evidence.jam, S.JAM_H),
    };
    before = row as number[];
    last = goal;
    return result;
  });
}

/** The reference car with a setup as it comes. */
export async function hallConstants(): Promise<Constants> {
  const { vehicle, setups } = await loadGarage(HALL_GARAGE);
  return bake(vehicle, setups);
}
