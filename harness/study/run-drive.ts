import {
  Cause,
  type Constants,
  createController,
  createInputs,
  createOutputs,
  S,
} from '../../lib/index.ts';
import { readInputs } from '../replay/read-row.ts';
import { inputWidth, Out, outputWidth } from '../replay/row-layout.ts';
import type { Garage } from '../setup/load-garage.ts';
import { planInGarage } from '../simulate/plan-simulation.ts';
import { type SimulationResult, simulate } from '../simulate/simulate.ts';
import { changeSetups } from './change-setups.ts';
import { manoeuvreOf } from './manoeuvre-of.ts';
import type { StudyDrive } from './study-drive.ts';
import { createTruth, type Kind, type Truth } from './truth.ts';

/** A finding from its first tick to its last, s; times of the manoeuvre. */
interface Alarm {
  kind: Kind;
  motor: number;
  fromS: number;
  toS: number;
}

/** What a drive gave. */
export interface DriveResult {
  drive: StudyDrive;
  truth: Truth;
  /** Length of the drive, s, and how much of it the vehicle was driven. */
  lengthS: number;
  drivenS: number;
  /** When stall time or heat first stopped the motors; Infinity = never. */
  guardedS: number;
  /** What was found with each level's threshold, in the order of LEVELS. */
  alarms: Alarm[][];
}

/** Thresholds h over the baked ones. */
export const LEVELS = [0.25, 0.5, 1, 2, 4] as const;
/** Which of them is the baked one. */
export const BAKED = 2;

/** Simulates a drive once, then lets the core find what it can at each threshold. */
export function runDrive(drive: StudyDrive, garage: Garage): DriveResult {
  const { setup, surface, variation, seed, faults } = drive;
  // Any manoeuvre that each vehicle can drive: the study's own take its place.
  const plan = planInGarage(garage, {
    setup: [setup],
    surface,
    variation,
    seed,
    manoeuvre: 'top-speed',
  });
  const constants = plan.setups[0]!.constants;
  const truth = createTruth(plan.plant, plan.car.topSpeed, faults);
  const result = simulate({
    ...plan,
    constants,
    faults,
    manoeuvre: manoeuvreOf(drive.manoeuvre, seed),
    watch: (t, plant, { drive: commands }) => truth.watch(t, plant, commands),
  });
  return {
    drive,
    truth: truth.finish(),
    lengthS: result.trace.t.at(-1)! + result.leadInS,
    drivenS: drivenTime(result),
    guardedS: guardedFrom(result),
    alarms: LEVELS.map((level) => findAlarms(result, withThresholds(constants, level))),
  };
}

function drivenTime({ trace, rows }: SimulationResult): number {
  const width = outputWidth(rows.motors);
  let driven = 0;
  for (let i = 0; i < rows.count; i++) {
    const at = i * width + Out.DRIVE;
    if (rows.outputs.subarray(at, at + rows.motors).some((command) => command !== 0)) driven++;
  }
  return ((trace.t.at(-1)! - trace.t[0]!) * driven) / rows.count;
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

/** Feeds what the core consumed to another one, and notes when its findings come and go. */
function findAlarms({ rows, trace }: SimulationResult, constants: Constants): Alarm[] {
  const core = createController(constants);
  const inputs = createInputs();
  const outputs = createOutputs();
  const open = new Map<number, Alarm>();
  const alarms: Alarm[] = [];
  for (let i = 0; i < rows.count; i++) {
    readInputs(rows.inputs, i * inputWidth(rows.motors), rows.motors, inputs);
    core.step(inputs, outputs);
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
