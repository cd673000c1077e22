import {
  type Constants,
  createController,
  createInputs,
  createOutputs,
  type Outputs,
  S,
  V,
} from '../../lib/index.ts';
import type { DriverView, Manoeuvre, ManoeuvreCar, Sticks } from '../manoeuvres/manoeuvre.ts';
import type { Trace } from '../metrics/trace.ts';
import type { Divergence } from '../plant/check-run.ts';
import type { Energies } from '../plant/count-energy.ts';
import { createFrame } from '../plant/frame.ts';
import { createLink, type LinkDescription } from '../plant/link.ts';
import { longestStep } from '../plant/longest-step.ts';
import { createPlant, type Plant } from '../plant/plant.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import { VX, VY, X, Y, YAW, YAW_RATE } from '../plant/state.ts';
import { type FaultChange, planFaults } from './fault-plan.ts';
import type { FaultSpan } from './fault-span.ts';
import { createStickPulses } from './stick-pulses.ts';
import { addTick, createTickRows, type TickRows } from './tick-rows.ts';
import { createTraceRecorder } from './trace-recorder.ts';

/** What is driven, by whom, on what. */
export interface SimulationOptions {
  /** The vehicle on its surface. */
  plant: PlantDescription;
  /** What the manoeuvre is told of it. */
  car: ManoeuvreCar;
  /** Baked constants of the core. */
  constants: Constants;
  manoeuvre: Manoeuvre;
  /** What breaks beside what the manoeuvre itself breaks. */
  faults?: readonly FaultSpan[];
  /** Seed of sensors, radio link and jitter; 1 if left out. */
  seed?: number;
  /** How sticks reach the hub and when it ticks; see LINK for what is left out. */
  link?: Partial<LinkDescription>;
  /** Least time of power-up before the manoeuvre begins, s; longer if arming takes longer. */
  leadInS?: number;
  /** Slot and reduced-power switch at a time of the manoeuvre, s; slot 0, off, if left out. */
  switches?: (t: number) => { slot: number; guest: boolean };
  /** Longest step of the plant, s; a whole number of steps makes a millisecond. 0.001. */
  stepS?: number;
  /** Called after each tick with the plant as it is; `t` is the time of the manoeuvre, s. */
  watch?: (t: number, plant: Plant, outputs: Outputs) => void;
}

/** A simulated drive. */
export interface SimulationResult {
  /** What the vehicle did, sampled once a tick. */
  trace: Trace;
  /** What the core consumed and gave, as a run holds it. */
  rows: TickRows;
  /** Time of power-up before the manoeuvre begins, s. */
  leadInS: number;
  /** Length of the plant's step, s. */
  stepS: number;
  /** Where the energy went from the start of the manoeuvre on. */
  energies: Energies;
  /** Why the drive ended before its time; what is held is all until then. */
  divergence?: Divergence;
}

/** Radio link and tick where nothing else is said; a frame each 20 ms is common practice. */
const LINK: Omit<LinkDescription, 'tickMs'> = {
  frameMs: 20,
  jitterMs: 2,
  dropout: 0,
  noiseUs: 1,
  tickJitterMs: 1,
};

/**
 * Drives a manoeuvre with the core in the loop: sticks go through the radio link, sensors and
 * pulses reach the core as integers once a tick, its commands are held until the next tick. The car
 * is held at rest until a neutral throttle has armed the core; then the manoeuvre begins at 0 s.
 * Same options, same bits.
 *
 * @throws UserError if the vehicle is impossible or a fault names what it does not have
 */
export function simulate(options: SimulationOptions): SimulationResult {
  const drive = createDrive(options);
  while (drive.tick());
  return drive.result();
}

/** Time in which each of these setups has armed, s; a whole number of ticks. */
export function longestLeadIn(all: readonly Constants[]): number {
  const times = all.map(({ vehicle, setups }) => {
    const tickMs = vehicle[V.TICK_MS]!;
    return Math.ceil((setups[0]![S.NEUTRAL_MS]! + ARMING_MARGIN) / tickMs) * tickMs;
  });
  return Math.max(...times) / 1000;
}

/** Arming takes at most so much longer than a neutral throttle must be held, ms. */
const ARMING_MARGIN = 200;
/** Ticks between two full checks that the run is still to be believed. */
const CHECK_EVERY = 20;
/** A body faster than this is checked at once, m/s, rad/s. */
const SUSPECT = 90;

function createDrive(options: SimulationOptions) {
  const { car, constants, manoeuvre } = options;
  const seed = options.seed ?? 1;
  const vehicle = constants.vehicle;
  const description = groundFor(options);
  const plant = createPlant(description, { seed });
  const stepS = stepFor(description, options.stepS ?? 0.001);
  const tickMs = vehicle[V.TICK_MS]!;
  // Another stream than that of the sensors, which the seed itself begins.
  const link = createLink({ ...LINK, tickMs, ...options.link }, seed ^ 0x5bd1e995);
  const leadInMs = Math.round(1000 * Math.max(longestLeadIn([constants]), options.leadInS ?? 0));
  const endS = manoeuvre.durationS(car);
  const most = Math.ceil((leadInMs + 1000 * endS) / tickMs) + 2;
  const driver = manoeuvre.createDriver(car);
  const pulses = createStickPulses(vehicle);
  const core = createController(constants);
  const inputs = createInputs();
  const outputs = createOutputs();
  const view: DriverView = { t: 0, x: 0, y: 0, yaw: 0, vx: 0, vy: 0, yawRate: 0 };
  const sticks: Sticks = { throttle: 0, steer: 0, linkUp: true };
  const rows = createTickRows(vehicle, most);
  const recorder = createTraceRecorder(vehicle[V.MOTORS]!, most);
  const clock = createPlantClock(plant, stepS);
  const changes = planFaults(manoeuvre, car, options.faults ?? []);
  tryFaults(plant, changes);
  let nextChange = 0;
  let isLinkLost = false;
  let divergence: Divergence | undefined;

  /** Steps the plant to a time of the manoeuvre, ms, with every fault at its own. */
  function advance(toMs: number): void {
    while (nextChange < changes.length) {
      const change = changes[nextChange]!;
      const atMs = 1000 * change.atS;
      if (atMs > toMs) break;
      clock.advance(atMs, outputs);
      plant.setFaults(change.faults);
      isLinkLost = change.isLinkLost;
      nextChange++;
    }
    clock.advance(toMs, outputs);
  }

  function tick(): boolean {
    const timeMs = link.nextTick();
    const t = (timeMs - leadInMs) / 1000;
    if (t > endS || rows.count >= most) return false;
    advance(timeMs - leadInMs);
    if (isSuspect(plant, rows.count)) {
      divergence = plant.check();
      if (divergence !== undefined) return false;
    }
    if (t >= 0) drive(driver, plant, t, view, sticks);
    link.isLost = isLinkLost || !sticks.linkUp;
    link.receive(timeMs, pulses.throttle(sticks.throttle), pulses.steer(sticks.steer), inputs);
    const switches = options.switches?.(t);
    inputs.slot = switches?.slot ?? 0;
    inputs.guest = switches?.guest === true ? 1 : 0;
    plant.sense(inputs);
    core.step(inputs, outputs);
    addTick(rows, inputs, outputs);
    recorder.record(t, plant, sticks, outputs);
    options.watch?.(t, plant, outputs);
    return true;
  }

  function result(): SimulationResult {
    return {
      trace: recorder.finish(),
      rows,
      leadInS: leadInMs / 1000,
      stepS,
      energies: plant.energies(),
      ...(divergence && { divergence }),
    };
  }

  return { tick, result };
}

function groundFor({ plant, manoeuvre }: SimulationOptions): PlantDescription {
  const ground = manoeuvre.ground?.(plant.ground);
  return ground === undefined ? plant : { ...plant, ground };
}

/**
 * Longest stable step of each vehicle seen, s: to find it costs as much as half a drive's start.
 */
const LONGEST = new WeakMap<PlantDescription, number>();

/** A whole number of steps makes a millisecond, so that each tick falls on the end of a step. */
function stepFor(description: PlantDescription, most: number): number {
  const longest = LONGEST.get(description) ?? longestStep(createFrame(description, false)).step;
  LONGEST.set(description, longest);
  return 0.001 / Math.ceil(0.001 / Math.min(most, longest) - 1e-9);
}

/** Refuses, before the drive begins, faults that the vehicle cannot have. */
function tryFaults(plant: Plant, changes: readonly FaultChange[]): void {
  for (const { faults } of changes) plant.setFaults(faults);
  if (changes.length > 0) plant.setFaults([]);
}

/** The plant's own time, in whole steps since the manoeuvre began; before, it is held at rest. */
function createPlantClock(plant: Plant, stepS: number) {
  const perMs = Math.round(0.001 / stepS);
  let now = 0;
  return {
    /** @param toMs time of the manoeuvre, ms */
    advance(toMs: number, { drive, enable, steer }: Outputs): void {
      const to = Math.round(toMs * perMs);
      for (; now < to; now++) plant.step(drive, enable, steer, stepS);
    },
  };
}

function isSuspect({ state }: Plant, count: number): boolean {
  const { body } = state;
  const fastest = Math.abs(body[VX]!) + Math.abs(body[VY]!) + Math.abs(body[YAW_RATE]!);
  return !(fastest < SUSPECT) || count % CHECK_EVERY === 0;
}

function drive(
  driver: ReturnType<Manoeuvre['createDriver']>,
  { state }: Plant,
  t: number,
  view: DriverView,
  sticks: Sticks,
): void {
  const { body } = state;
  view.t = t;
  view.x = body[X]!;
  view.y = body[Y]!;
  view.yaw = body[YAW]!;
  view.vx = body[VX]!;
  view.vy = body[VY]!;
  view.yawRate = body[YAW_RATE]!;
  driver.drive(view, sticks);
}
