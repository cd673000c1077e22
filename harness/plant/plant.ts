import { UserError } from '../problems.ts';
import { advance } from './advance.ts';
import { checkDescription } from './check-description.ts';
import { checkRun, type Divergence } from './check-run.ts';
import {
  countShock,
  type Energies,
  kineticEnergy,
  readEnergies,
  startEnergies,
} from './count-energy.ts';
import { catchUp, measureContacts } from './deflect-tyres.ts';
import { readCurve } from './drain-battery.ts';
import type { Fault } from './fault.ts';
import { findGround } from './find-ground.ts';
import { type Frame, repair } from './frame.ts';
import { aimBody } from './move-body.ts';
import { createObservation, type Observation, observe } from './observe.ts';
import type { PlantDescription } from './plant-description.ts';
import { SPEEDS } from './project-driveline.ts';
import { createSensors, type Senses, type SensorSnapshot } from './sensors.ts';
import {
  CHARGE,
  OPEN_CIRCUIT,
  type State,
  TERMINAL_VOLTAGE,
  VX,
  VY,
  X,
  Y,
  YAW,
  YAW_RATE,
} from './state.ts';
import { turnFront } from './steer-wheels.ts';

/** A simulated vehicle on its ground. */
export interface Plant {
  readonly description: PlantDescription;
  /** Its state; write to it only through `place` and `restore`. */
  readonly state: State;
  /**
   * One step of the integration; allocates nothing.
   *
   * @param drive command of each motor, permille, forward positive
   * @param enable 0 = bridges open, motors coast
   * @param steer command, permille of full lock, left positive
   * @param dt length of the step, s; see `longestStep`
   */
  step(drive: ArrayLike<number>, enable: number, steer: number, dt: number): void;
  /** Takes one sample of every fitted sensor. */
  sense(out: Senses): void;
  /** What can be read off the vehicle; the record is the same at each call. */
  observe(): Observation;
  /** Where the energy went since the start or the last `place`. */
  energies(): Energies;
  /** Puts the vehicle somewhere, rolling straight ahead; begins the energy books anew. */
  place(pose: Pose): void;
  /** From now on exactly these faults are present. */
  setFaults(faults: readonly Fault[]): void;
  /** What has gone wrong with the run, if anything. */
  check(): Divergence | undefined;
  snapshot(): Snapshot;
  /** Goes on exactly as it would have gone on from the snapshot. */
  restore(snapshot: Snapshot): void;
}

/** Centre of gravity in the world, m; yaw angle, rad; speed ahead, m/s. */
interface Pose {
  x: number;
  y: number;
  yaw: number;
  speed: number;
}

/** Everything a plant remembers. */
interface Snapshot {
  state: Float64Array;
  faults: readonly Fault[];
  sensors: SensorSnapshot;
}

export interface PlantOptions {
  /** Seed of the sensors' noise. */
  seed?: number;
  /** False leaves the energy books empty, for a little more speed. */
  countsEnergy?: boolean;
}

/**
 * Makes a plant that stands at the origin, heading along x.
 *
 * @throws UserError if the description is impossible: field, reason, range
 */
export function createPlant(description: PlantDescription, options: PlantOptions = {}): Plant {
  const frame = checkDescription(description, options.countsEnergy ?? true);
  const { state } = frame;
  const sensors = createSensors(description.sensors, frame.motorCount, options.seed ?? 1);
  const observation = createObservation();
  let faults: readonly Fault[] = [];
  start(frame);
  return {
    description,
    state,
    step: (drive, enable, steer, dt) => advance(frame, drive, enable, steer, dt),
    sense: (out) => sensors.sense(state, out),
    observe: () => {
      observe(frame, observation);
      return observation;
    },
    energies: () => readEnergies(frame),
    place: (pose) => {
      place(frame, pose);
      breakDown(frame, faults);
      startEnergies(frame);
    },
    setFaults: (next) => {
      checkFaults(description, next);
      breakDown(frame, next);
      sensors.freeze(next);
      faults = [...next];
    },
    check: () => checkRun(frame),
    snapshot: () => ({ state: state.all.slice(), faults, sensors: sensors.snapshot() }),
    restore: (snapshot) => {
      faults = snapshot.faults;
      state.all.set(snapshot.state);
      repair(frame, faults);
      sensors.restore(snapshot.sensors);
      sensors.freeze(faults);
      turnFront(frame);
      measureContacts(frame);
    },
  };
}

function start(frame: Frame): void {
  const { state, description } = frame;
  state.battery[CHARGE] = description.battery.charge;
  readCurve(frame);
  state.battery[TERMINAL_VOLTAGE] = state.battery[OPEN_CIRCUIT]!;
  for (const [m, { heat }] of description.motors.entries()) {
    state.winding[m] = heat.startC;
    state.housing[m] = heat.startC;
  }
  place(frame, { x: 0, y: 0, yaw: 0, speed: 0 });
  startEnergies(frame);
}

function place(frame: Frame, { x, y, yaw, speed }: Pose): void {
  const { state, radius, description } = frame;
  const { body, speeds } = state;
  body.fill(0);
  body[X] = x;
  body[Y] = y;
  body[YAW] = yaw;
  body[VX] = speed;
  body[VY] = 0;
  body[YAW_RATE] = 0;
  const { rates, surge, deflection, behind, friction, transfer } = state;
  for (const part of [speeds, rates, surge, deflection, behind, friction, transfer]) part.fill(0);
  for (let i = 0; i < 4; i++) speeds[i] = radius[i] === 0 ? 0 : speed / radius[i]!;
  for (const [m, row] of description.driveline.motors.entries())
    speeds[4 + m] = row.reduce((sum, turns, i) => sum + turns * speeds[i]!, 0);
  for (let i = 0; i < 4; i++) speeds[8 + i] = speeds[i]!;
  turnFront(frame);
  aimBody(frame);
  findGround(frame);
  measureContacts(frame);
}

/** Switches to other matrices; speeds they do not allow are lost in a shock. */
function breakDown(frame: Frame, faults: readonly Fault[]): void {
  const { state, slipped } = frame;
  const { speeds, rates } = state;
  catchUp(frame);
  for (let i = 0; i < 4; i++) if (slipped[i] === 0) speeds[8 + i] = speeds[i]!;
  const before = kineticEnergy(frame);
  const { admit } = repair(frame, faults);
  const old = speeds.slice();
  for (let i = 0; i < SPEEDS; i++)
    speeds[i] = admit[i]!.reduce((sum, value, j) => sum + value * old[j]!, 0);
  rates.fill(0);
  countShock(frame, before - kineticEnergy(frame));
  measureContacts(frame);
}

function checkFaults({ name, driveline }: PlantDescription, faults: readonly Fault[]): void {
  const names = driveline.constraints.map((constraint) => constraint.name);
  for (const fault of faults) {
    const [index, count] =
      'wheel' in fault
        ? [fault.wheel, 4]
        : 'motor' in fault
          ? [fault.motor, driveline.motors.length]
          : [0, 1];
    if (!Number.isInteger(index) || index < 0 || index >= count) {
      const message = `found number ${index}, expected 0 to ${count - 1}.`;
      throw new UserError([{ file: name, field: `fault ${fault.kind}`, message }]);
    }
    if (fault.kind !== 'lostDrive' || names.includes(fault.constraint)) continue;
    const known = names.length === 0 ? 'none: this driveline has no such part' : names.join(', ');
    const message = `found "${fault.constraint}", expected ${known}.`;
    throw new UserError([{ file: name, field: 'fault lostDrive', message }]);
  }
}
