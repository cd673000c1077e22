import {
  Cause,
  type Constants,
  createController,
  createInputs,
  createOutputs,
  S,
  V,
} from '../../lib/index.ts';
import { readInputs } from '../replay/read-row.ts';
import { inputWidth, Out, outputWidth } from '../replay/row-layout.ts';
import type { Garage } from '../setup/load-garage.ts';
import { planInGarage, type SimulationPlan } from '../simulate/plan-simulation.ts';
import { type SimulationResult, simulate } from '../simulate/simulate.ts';
import type { TickRows } from '../simulate/tick-rows.ts';
import { changeSetups } from './change-setups.ts';
import { CALM_STARTS, manoeuvreOf } from './manoeuvre-of.ts';
import { createResiduals, type Residual } from './residual.ts';
import type { StudyDrive } from './study-drive.ts';
import { createTruth, type Kind, type Truth } from './truth.ts';

/** A finding from its first tick to its last, s; times of the manoeuvre. */
export interface Alarm {
  kind: Kind;
  motor: number;
  fromS: number;
  toS: number;
}

/** What a drive gave. */
export interface DriveResult {
  drive: StudyDrive;
  truth: Truth;
  /** What its currents could show of each event of the truth. */
  residuals: (Residual | undefined)[];
  /** Length of the drive, s. */
  lengthS: number;
  /** When stall time or heat first stopped the motors; Infinity = never. */
  guardedS: number;
  /**
   * What was found with each level's threshold, in the order of LEVELS, once calm starts are over.
   */
  alarms: Alarm[][];
  /** What a core found that was switched on just before, with the baked threshold. */
  coldAlarms: Alarm[];
}

/** Thresholds h over the baked ones. */
export const LEVELS = [0.25, 0.5, 1, 2, 4] as const;
/** Which of them is the baked one. */
export const BAKED = 2;

/**
 * Simulates calm starts and then a drive, once; then lets the core find what it can in them at each
 * threshold.
 */
export function runDrive(drive: StudyDrive, garage: Garage): DriveResult {
  const { seed, faults } = drive;
  const calm = simulateCalmStarts(drive, garage);
  const plan = planDrive(drive, garage, calm.windingC);
  const constants = plan.setups[0]!.constants;
  const watcher = createTruth(plan.plant, plan.car.topSpeed, faults);
  const residuals = createResiduals(plan.plant, constants.vehicle);
  const result = simulate({
    ...plan,
    constants,
    faults,
    manoeuvre: manoeuvreOf(drive.manoeuvre, seed),
    watch: (t, plant, { drive: commands }) => {
      watcher.watch(t, plant, commands);
      residuals.watch(t, plant, commands);
    },
  });
  const truth = watcher.finish();
  return {
    drive,
    truth,
    residuals: truth.events.map(residuals.of),
    lengthS: result.trace.t.at(-1)! + result.leadInS,
    guardedS: guardedFrom(result),
    alarms: LEVELS.map((level) => findAlarms(result, withThresholds(constants, level), calm.rows)),
    coldAlarms: findAlarms(result, constants),
  };
}

/** @param windingC temperature of each winding at the start, if it is not that of the variation */
function planDrive(drive: StudyDrive, garage: Garage, windingC?: number[]): SimulationPlan {
  const { setup, surface, variation, seed } = drive;
  const motors = variation.motors.map((motor, m) => ({
    ...motor,
    ...(windingC && { startC: windingC[m] }),
  }));
  return planInGarage(garage, {
    setup: [setup],
    surface,
    variation: { ...variation, motors },
    seed,
    // Any that each vehicle can drive: the study's own take its place.
    manoeuvre: 'top-speed',
  });
}

/** What a core learns from before the drive, and how warm the windings are then, degrees C. */
function simulateCalmStarts(
  drive: StudyDrive,
  garage: Garage,
): { rows: TickRows; windingC: number[] } {
  const plan = planDrive(drive, garage);
  const seed = drive.seed ^ 0x27d4eb2f;
  let windingC: number[] = [];
  const { rows } = simulate({
    ...plan,
    seed,
    constants: plan.setups[0]!.constants,
    manoeuvre: manoeuvreOf(CALM_STARTS, seed),
    watch: (_t, { state }) => {
      windingC = [...state.winding];
    },
  });
  return { rows, windingC };
}

function guardedFrom({ trace, rows }: SimulationResult): number {
  const width = outputWidth(rows.motors);
  for (let i = 0; i < rows.count; i++) {
    const cause = rows.outputs[i * width + Out.CAUSE]!;
    if (cause === Cause.STALLED || cause === Cause.OVERHEATED) return trace.t[i]!;
  }
  return Infinity;
}

function withThresholds(constants: Constants, level: number): Constants {
  return changeSetups(constants, (setup) => {
    for (const index of [S.SPIN_H, S.FREE_H, S.JAM_H])
      setup[index] = Math.max(1, Math.round(setup[index]! * level));
  });
}

/**
 * Feeds what the core consumed to another one, and notes when its findings come and go.
 *
 * @param before what it consumes first, without being listened to
 */
function findAlarms(
  { rows, trace }: SimulationResult,
  constants: Constants,
  before?: TickRows,
): Alarm[] {
  const core = createController(constants);
  const inputs = createInputs();
  const outputs = createOutputs();
  const open = new Map<number, Alarm>();
  const alarms: Alarm[] = [];
  const step = (from: TickRows, row: number, sinceMs: number) => {
    readInputs(from.inputs, row * inputWidth(from.motors), from.motors, inputs);
    inputs.timeMs += sinceMs;
    core.step(inputs, outputs);
  };
  for (let i = 0; i < (before?.count ?? 0); i++) step(before!, i, 0);
  const sinceMs = before === undefined ? 0 : inputs.timeMs + constants.vehicle[V.TICK_MS]!;
  for (let i = 0; i < rows.count; i++) {
    step(rows, i, sinceMs);
    const t = trace.t[i]!;
    for (let bit = 0; bit < BITS; bit++) {
      const isFound = ((outputs.found >> bit) & 1) === 1;
      const known = open.get(bit);
      if (isFound && known === undefined) {
        const alarm = { ...meaningOf(bit), fromS: t, toS: t };
        open.set(bit, alarm);
        alarms.push(alarm);
      } else if (!isFound && known !== undefined) open.delete(bit);
      if (isFound && known !== undefined) known.toS = t;
    }
  }
  return alarms;
}

/** Bits of Found. */
const BITS = 13;
const KINDS: readonly Kind[] = ['spin', 'free', 'jam', 'front'];

function meaningOf(bit: number): { kind: Kind; motor: number } {
  return { kind: KINDS[bit >> 2]!, motor: bit & 3 };
}
