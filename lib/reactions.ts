import { Cause, Flag, Reaction } from './codes.ts';
import { S, V } from './constants.ts';
import { Fit } from './fit.ts';
import { greatest } from './greatest.ts';

/** Lowers commands as the setup wants it for what is found. */
export interface Reactions {
  /** The fault that a finding with Reaction.STOP is, or Cause.NONE; bits of Found. */
  fault(spin: number, free: number, jam: number): number;
  /**
   * @param goal command of each motor, permille; lowered in place
   * @param rise time that permits, ms
   * @returns Flag.TRACTION_LIMIT if anything is lowered, else 0
   */
  run(goal: number[], spin: number, free: number, jam: number, rise: number): number;
  /** Ends what lasts until re-arming. */
  clear(): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** @param vehicle constants of the vehicle */
export function createReactions(vehicle: number[]): Reactions {
  const count = vehicle[V.MOTORS];
  const twos = count > 2 ? 2 : 1;
  let onSpin: number = Reaction.OFF;
  let onFree: number = Reaction.OFF;
  let onJam: number = Reaction.OFF;
  let trim = 0;
  let cap = 0;
  let ramp = 1;
  /** What is left of each pair of motors, and of all, permille. */
  const pairs = [1000, 1000];
  let all = 1000;
  let limps = 0;

  function fault(spin: number, free: number, jam: number): number {
    if (jam !== 0 && onJam === Reaction.STOP) return Cause.JAMMED;
    if (free !== 0 && onFree === Reaction.STOP) return Cause.DRIVE_LOST;
    return spin !== 0 && onSpin === Reaction.STOP ? Cause.WHEEL_SPIN : Cause.NONE;
  }

  function run(goal: number[], spin: number, free: number, jam: number, rise: number): number {
    // A setup that stays takes nothing that it has to give back, either.
    if (!Fit.SETUPS_CHANGE && !lowers()) return 0;
    const back = (1000 * rise) / ramp;
    let flags = 0;
    if ((spin !== 0 && onSpin === Reaction.RAMP) || (jam !== 0 && onJam === Reaction.RAMP)) all = 0;
    else all = all + back > 1000 ? 1000 : all + back;
    if ((spin !== 0 && onSpin === Reaction.LIMP) || (free !== 0 && onFree === Reaction.LIMP)) {
      limps = 1;
    }
    for (let p = 0; p < twos; p++) {
      // Both motors of a pair, so that the inside one never becomes the faster one.
      const slips = onSpin === Reaction.TRIM && (spin & (3 << (2 * p))) !== 0;
      const left = pairs[p] + back;
      pairs[p] = slips ? (trim < left ? trim : left) : left > 1000 ? 1000 : left;
      const share = pairs[p] * all;
      if (share >= 1000000) continue;
      flags = Flag.TRACTION_LIMIT;
      goal[2 * p] = (goal[2 * p] * share) / 1000000;
      goal[2 * p + 1] = (goal[2 * p + 1] * share) / 1000000;
    }
    if (limps === 0) return flags;
    const most = greatest(goal, count);
    if (most > cap) for (let m = 0; m < count; m++) goal[m] = (goal[m] * cap) / most;
    return Flag.TRACTION_LIMIT;
  }

  /** Whether anything that may be found lowers commands. */
  function lowers(): boolean {
    if (onSpin > Reaction.REPORT && onSpin < Reaction.STOP) return true;
    return onFree === Reaction.LIMP || onJam === Reaction.RAMP;
  }

  function clear(): void {
    limps = 0;
  }

  function load(setup: number[]): void {
    onSpin = setup[S.SPIN_REACTION];
    onFree = setup[S.FREE_REACTION];
    onJam = setup[S.JAM_REACTION];
    trim = setup[S.TRIM];
    cap = setup[S.LIMP_CAP];
    ramp = setup[S.RAMP_MS];
  }

  return { fault: fault, run: run, clear: clear, load: load };
}
