import { Flag, State } from '../../lib/index.ts';
import { Out, outputWidth } from './row-layout.ts';

/**
 * What a set of constants made of a run's inputs, in figures that two setups can be compared by.
 */
export interface Figures {
  /** Time in the states driving and stopping, s. */
  drivingS: number;
  /** Number of times the core stopped by itself. */
  stops: number;
  /** Greatest magnitude of any motor's command, permille. */
  mostDrive: number;
  /** Mean magnitude of all motors' commands while driving, permille. */
  meanDrive: number;
  /** Greatest inside cut while driving, permille. */
  mostCut: number;
  /** Mean inside cut while driving with the wheel turned at least a tenth of the lock, permille. */
  meanCutTurning: number;
  /** Steepest rise of any motor's magnitude in one tick, permille. */
  steepestRise: number;
  /** Time in which supply, current, heat or a lost sensor lowered the drive, s. */
  limitedS: number;
}

/** Gathers figures tick by tick. */
export interface FigureGatherer {
  /**
   * @param stepS run time since the last tick, s; the tick's row begins at `outputs[at]`
   * @param flags as ToldFlags has them
   */
  observe(stepS: number, outputs: Int32Array, at: number, flags: number): void;
  finish(): Figures;
}

const LIMITED = Flag.SUPPLY_LIMIT | Flag.CURRENT_LIMIT | Flag.HEAT_LIMIT | Flag.SENSOR_LOST;
/** Steering from which on a car counts as turning, permille of full lock. */
const TURNING = 100;

/** @param motors number of motors */
export function createFigures(motors: number): FigureGatherer {
  const last = new Int32Array(outputWidth(motors));
  const sum = { drive: 0, driveTicks: 0, cut: 0, cutTicks: 0 };
  const figures: Figures = {
    drivingS: 0,
    stops: 0,
    mostDrive: 0,
    meanDrive: 0,
    mostCut: 0,
    meanCutTurning: 0,
    steepestRise: 0,
    limitedS: 0,
  };

  function observe(stepS: number, outputs: Int32Array, at: number, flags: number): void {
    const state = outputs[at + Out.STATE]!;
    if (state === State.STOPPING && last[Out.STATE] !== State.STOPPING) figures.stops++;
    for (let i = Out.DRIVE; i < Out.DRIVE + motors; i++) {
      const magnitude = Math.abs(outputs[at + i]!);
      if (magnitude > figures.mostDrive) figures.mostDrive = magnitude;
      const rise = magnitude - Math.abs(last[i]!);
      if (rise > figures.steepestRise) figures.steepestRise = rise;
      if (state === State.DRIVING) {
        sum.drive += magnitude;
        sum.driveTicks++;
      }
      last[i] = outputs[at + i]!;
    }
    last[Out.STATE] = state;
    if (state === State.DRIVING || state === State.STOPPING) figures.drivingS += stepS;
    if (state !== State.DRIVING) return;
    const cut = outputs[at + Out.CUT]!;
    if (cut > figures.mostCut) figures.mostCut = cut;
    if (Math.abs(outputs[at + Out.STEER]!) >= TURNING) {
      sum.cut += cut;
      sum.cutTicks++;
    }
    if ((flags & LIMITED) !== 0) figures.limitedS += stepS;
  }

  function finish(): Figures {
    return {
      ...figures,
      meanDrive: sum.driveTicks === 0 ? 0 : sum.drive / sum.driveTicks,
      meanCutTurning: sum.cutTicks === 0 ? 0 : sum.cut / sum.cutTicks,
    };
  }

  return { observe, finish };
}
