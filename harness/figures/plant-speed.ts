import { demoGarage } from '../demo/create-garage.ts';
import { createPlant, type Plant } from '../plant/plant.ts';
import { X, Y } from '../plant/state.ts';
import { planSimulation, type SimulationPlan } from '../simulate/plan-simulation.ts';
import { type SimulationResult, simulate } from '../simulate/simulate.ts';
import type { Figure, FigureSource } from './figure.ts';
import { createRigidBodyCar, type RigidBodyCar } from './rigid-body-car.ts';

const STEP_S = 0.001;
/** Rounds in which plant, engine and loop take turns; the best of each counts. */
const ROUNDS = 120;
/** Drives of a round, one after the other as in a study, each timed for itself. */
const DRIVES = 3;

/** Speed of the simulated car, alone and with the core in the loop, beside a rigid-body engine. */
export const plantSpeed: FigureSource = {
  name: 'plant',
  async measure() {
    const plan = await planSimulation({ garage: demoGarage('hatch'), setup: ['vinyl'] });
    const commands = commandsOf(driveOnce(plan, 0));
    // The other engine keeps no books of energy either; the drives in the loop do.
    const plant = createPlant(plan.plant, { countsEnergy: false });
    const car = createRigidBodyCar(plan.plant);
    const best = { plant: Infinity, engine: Infinity, loop: Infinity };
    let simulatedS = 0;
    for (let round = 0; round < ROUNDS; round++) {
      best.plant = Math.min(best.plant, timePlant(plant, commands));
      best.engine = Math.min(best.engine, timeEngine(car, commands));
      for (let i = 0; i < DRIVES; i++) {
        const loop = timed(() => {
          simulatedS = driveOnce(plan, round * DRIVES + i).trace.t.at(-1)!;
        });
        best.loop = Math.min(best.loop, loop);
      }
    }
    const { steps } = commands;
    return [
      figure('plant, steps a second on one core', steps / best.plant / 1e6, 'M', {
        least: 1.5,
        note: PLANT,
      }),
      figure('plant with the core in the loop, over real time', simulatedS / best.loop, 'times', {
        least: 1000,
        note: LOOP,
      }),
      figure(
        'ray-cast car of a rigid-body engine, steps a second',
        steps / best.engine / 1e6,
        'M',
        {
          note: ENGINE,
        },
      ),
      figure('plant over that engine, by step', best.engine / best.plant, 'times', { least: 10 }),
    ];
  },
};

const PLANT =
  'Plant: the demo hatch on vinyl from rest at full lock, throttle to full over 1 s, with the ' +
  'commands that its core gave, 4 s in steps of 1 ms. A body in the plane with wheel loads, four ' +
  'wheels and two motors through a driveline, Magic Formula tyres with relaxation, battery, heat ' +
  `of the windings; no books of energy. Best of ${ROUNDS} rounds in which plant, engine and loop ` +
  'take turns.';
const LOOP =
  'The same 4 s with everything: making the plant, arming the core, sensors, radio link, books ' +
  `of energy, a trace of every tick; best of ${ROUNDS * DRIVES} drives, ${DRIVES} in a row each ` +
  'round. The core is the TypeScript source in Node.';
const ENGINE =
  'cannon-es, RaycastVehicle, the same commands: a box with six degrees of freedom on four ' +
  'sprung rays, forces by impulses under a friction cap; no tyre curve, driveline, motors, ' +
  'battery or heat, but pitch, roll, heave and collisions. The ray-cast car of rapier3d-compat ' +
  '0.21, tried once, made 0.03 M steps a second.';

function figure(
  what: string,
  value: number,
  unit: string,
  more: Pick<Figure, 'least' | 'note'> = {},
): Figure {
  return { what, where: 'node', value: Math.round(value * 1000) / 1000, unit, ...more };
}

/** What the core commanded in a drive, step by step. */
interface Commands {
  steps: number;
  left: Float64Array;
  right: Float64Array;
}

function commandsOf({ trace }: SimulationResult): Commands {
  const steps = Math.round(trace.t.at(-1)! / STEP_S);
  const held = (drive: Float64Array) => {
    let tick = 0;
    return Float64Array.from({ length: steps }, (_, i) => {
      while (trace.t[tick + 1]! <= i * STEP_S) tick++;
      return drive[tick]!;
    });
  };
  return { steps, left: held(trace.drive[0]!), right: held(trace.drive[1]!) };
}

function timePlant(plant: Plant, commands: Commands): number {
  plant.place({ x: 0, y: 0, yaw: 0, speed: 0 });
  const { steps, left, right } = commands;
  const drive = [0, 0];
  const seconds = timed(() => {
    for (let i = 0; i < steps; i++) {
      drive[0] = left[i]!;
      drive[1] = right[i]!;
      plant.step(drive, 1, 1000, STEP_S);
    }
  });
  const { body } = plant.state;
  demandMotion('the plant', Math.hypot(body[X]!, body[Y]!));
  return seconds;
}

function timeEngine(car: RigidBodyCar, commands: Commands): number {
  car.place();
  const { steps, left, right } = commands;
  const drive = [0, 0];
  const seconds = timed(() => {
    for (let i = 0; i < steps; i++) {
      drive[0] = left[i]!;
      drive[1] = right[i]!;
      car.step(drive, 1000, STEP_S);
    }
  });
  demandMotion('the rigid-body car', car.wheelsDown() < 4 ? 0 : car.way());
  return seconds;
}

function driveOnce(plan: SimulationPlan, seed: number): SimulationResult {
  const { plant, car, manoeuvre, setups } = plan;
  const { constants } = setups[0]!;
  const result = simulate({ plant, car, manoeuvre, constants, seed });
  demandMotion('the simulated drive', result.trace.speed.at(-1)!);
  return result;
}

/** A figure of a car that stood still, or lay on its roof, would be worth nothing. */
function demandMotion(what: string, amount: number): void {
  if (!(amount > 0.1)) throw new Error(`${what} did not drive: ${amount}`);
}

function timed(work: () => void): number {
  const begin = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - begin) / 1e9;
}
