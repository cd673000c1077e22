import { type Constants, V } from '../../lib/index.ts';
import type { Finding } from '../report/report-data.ts';
import { Out } from './row-layout.ts';

/** Finds out whether a run's currents answered to other commands than those recomputed. */
export interface OpenLoopWatch {
  /** @param drives what the motors were commanded, see driveRows; rows begin at the places given */
  observe(drives: Int32Array, driveAt: number, outputs: Int32Array, outputAt: number): void;
  /** A sentence at the beginning, or none if the commands were much the same. */
  finish(): Finding[];
}

/** A difference of commands that matters, permille, and in how many ticks. */
const DIFFERENCE = 50;
const TICKS = 20;

/** @param constants what is driven with */
export function createOpenLoopWatch({ vehicle }: Constants): OpenLoopWatch {
  const motors = vehicle[V.HAS_CURRENT] === 1 ? vehicle[V.MOTORS]! : 0;
  let ticks = 0;
  let most = 0;

  function observe(
    drives: Int32Array,
    driveAt: number,
    outputs: Int32Array,
    outputAt: number,
  ): void {
    let greatest = 0;
    for (let i = 0; i < motors; i++) {
      const apart = Math.abs(outputs[outputAt + Out.DRIVE + i]! - drives[driveAt + i]!);
      greatest = Math.max(greatest, apart);
    }
    if (greatest < DIFFERENCE) return;
    ticks++;
    most = Math.max(most, greatest);
  }

  function finish(): Finding[] {
    if (ticks < TICKS) return [];
    const text =
      `Recorded with other motor commands, by up to ${(most / 10).toFixed(0)} %: the currents ` +
      'answered to those, so speed, spins, lost drives and jams told here may be false.';
    return [{ atS: 0, severity: 'warning', text }];
  }

  return { observe, finish };
}
