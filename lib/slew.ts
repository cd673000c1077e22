import { S } from './constants.ts';

/**
 * Bounds how fast commands change. The motor with the largest goal rises at the setup's rate and
 * the others in proportion, so that a launch keeps the split's ratio. In falling, a motor takes the
 * greater of two shares of the rate: that of its command in the largest one, so that a stop keeps
 * the ratio, and that of its way in the longest one, so that it arrives. A change of direction
 * passes through zero and dwells there.
 */
export interface Slew {
  /** Command of each motor, permille, not rounded. */
  now: number[];
  /**
   * @param goal wanted command of each motor, permille
   * @param rise time that permits, ms
   * @param stop time that forbids, ms
   * @param mode 0 = follow; 1 = follow, but fall at the stop rate; 2 = stop
   */
  step(goal: number[], rise: number, stop: number, mode: number): void;
  /** Takes over what the gate let pass of motor `i`, permille. */
  settle(i: number, passed: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** Longer than any dwell; at power-up every motor has rested long enough. */
const RESTED = 100000;

/** @param count number of motors */
export function createSlew(count: number): Slew {
  const now = [0, 0, 0, 0];
  const wanted = [0, 0, 0, 0];
  const rest = [RESTED, RESTED, RESTED, RESTED];
  const direction = [0, 0, 0, 0];
  let riseRate = 0;
  let fallRate = 0;
  let stopRate = 0;
  let dwell = 0;
  const slew = { now: now, step: step, settle: settle, load: load };

  function step(goal: number[], rise: number, stop: number, mode: number): void {
    const up = (riseRate * rise) / 1000;
    const down = ((mode === 0 || fallRate > stopRate ? fallRate : stopRate) * stop) / 1000;
    let mostNow = 0;
    let mostGoal = 0;
    let mostFall = 0;
    for (let i = 0; i < count; i++) {
      wanted[i] = mode === 2 ? 0 : allowed(i, goal[i], rise);
      const a = now[i] < 0 ? 0 - now[i] : now[i];
      const b = goal[i] < 0 ? 0 - goal[i] : goal[i];
      const fall = wanted[i] < 0 ? a + wanted[i] : a - wanted[i];
      if (a > mostNow) mostNow = a;
      if (b > mostGoal) mostGoal = b;
      if (fall > mostFall) mostFall = fall;
    }
    for (let i = 0; i < count; i++) {
      const negative = now[i] === 0 ? wanted[i] < 0 : now[i] < 0;
      let a = now[i] < 0 ? 0 - now[i] : now[i];
      const b = wanted[i] < 0 ? 0 - wanted[i] : wanted[i];
      if (b > a) {
        a += (up * b) / mostGoal;
        if (a > b) a = b;
      } else if (a > b) {
        const share = a / mostNow;
        const way = (a - b) / mostFall;
        a -= down * (way > share ? way : share);
        if (a < b) a = b;
      }
      set(i, negative ? 0 - a : a);
    }
  }

  /** The goal, or 0 while motor `i` still has to pass zero or to dwell there. */
  function allowed(i: number, goal: number, rise: number): number {
    // The gate lets nothing out of such a goal; a remnant of one must not cost a dwell later.
    if (goal < 1 && goal > -1) goal = 0;
    if (now[i] !== 0) return goal > 0 === now[i] > 0 ? goal : 0;
    if (rest[i] < RESTED) rest[i] += rise;
    return rest[i] < dwell && goal > 0 !== direction[i] > 0 ? 0 : goal;
  }

  function set(i: number, value: number): void {
    if (value !== 0) direction[i] = value;
    else if (now[i] !== 0) rest[i] = 0;
    now[i] = value;
  }

  function settle(i: number, passed: number): void {
    const short = now[i] < 0 ? passed - now[i] : now[i] - passed;
    if (short >= 1) set(i, passed);
  }

  function load(setup: number[]): void {
    riseRate = setup[S.RISE];
    fallRate = setup[S.FALL];
    stopRate = setup[S.STOP];
    dwell = setup[S.DWELL_MS];
  }

  return slew;
}
