import { S } from './constants.ts';
import { Fit } from './fit.ts';

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
  run(goal: number[], rise: number, stop: number, mode: number): void;
  /** Takes over what the gate let pass of motor `i` where that was less, permille. */
  settle(i: number, passed: number): void;
  /** Takes over the constants of a setup. */
  load(setup: number[]): void;
}

/** As long as any dwell, ms; at power-up every motor has rested long enough. */
const RESTED = 1000;

/** @param count number of motors */
export function createSlew(count: number): Slew {
  const now = [0, 0, 0, 0];
  const wanted = [0, 0, 0, 0];
  /** Magnitudes of both, while a tick runs. */
  const size = [0, 0, 0, 0];
  const aim = [0, 0, 0, 0];
  const rest = [RESTED, RESTED, RESTED, RESTED];
  const direction = [0, 0, 0, 0];
  let riseRate = 0;
  let fallRate = 0;
  let stopRate = 0;
  let dwell = 0;
  const slew = { now: now, run: run, settle: settle, load: load };

  function run(goal: number[], rise: number, stop: number, mode: number): void {
    const from = now;
    const to = wanted;
    let mostNow = 0;
    let mostGoal = 0;
    let mostFall = 0;
    for (let i = 0; i < count; i++) {
      const g = goal[i];
      const y = from[i];
      const b = g < 0 ? 0 - g : g;
      // The gate lets nothing out of a goal under 1; a remnant of one must not cost a dwell later.
      let w = b < 1 || mode === 2 ? 0 : g;
      if (y === 0) w = departing(i, w, rise);
      else if (w > 0 !== y > 0) w = 0;
      to[i] = w;
      const a = y < 0 ? 0 - y : y;
      size[i] = a;
      // What is wanted is the goal or nothing.
      aim[i] = w === 0 ? 0 : b;
      const fall = a - (Fit.BYTES_COUNT ? magnitude(w) : aim[i]);
      if (a > mostNow) mostNow = a;
      if (b > mostGoal) mostGoal = b;
      if (fall > mostFall) mostFall = fall;
    }
    const up = riseRate * rise;
    const down = (mode === 0 ? fallRate : stopRate) * stop;
    for (let i = 0; i < count; i++) {
      const y = from[i];
      const w = to[i];
      // Else it falls by no more than it has to.
      if (!Fit.BYTES_COUNT && w === y) continue;
      const a = Fit.BYTES_COUNT ? magnitude(y) : size[i];
      const b = Fit.BYTES_COUNT ? magnitude(w) : aim[i];
      let next = b;
      if (b > a) {
        const raised = a + (up * b) / mostGoal;
        if (raised < b) next = raised;
      } else {
        const share = a / mostNow;
        const way = (a - b) / mostFall;
        const lowered = a - down * (way > share ? way : share);
        if (lowered > b) next = lowered;
      }
      if (next === 0) arrive(i, y);
      from[i] = (y === 0 ? w < 0 : y < 0) ? 0 - next : next;
    }
  }

  /** The goal of motor `i`, which is at zero; 0 while it still has to rest there. */
  function departing(i: number, goal: number, rise: number): number {
    rest[i] += rise;
    return rest[i] < dwell && goal > 0 !== direction[i] > 0 ? 0 : goal;
  }

  /** Motor `i` comes from `y` to zero; its rest begins. */
  function arrive(i: number, y: number): void {
    if (y === 0) return;
    direction[i] = y;
    rest[i] = 0;
  }

  function settle(i: number, passed: number): void {
    if (passed === 0) arrive(i, now[i]);
    now[i] = passed;
  }

  function load(setup: number[]): void {
    riseRate = setup[S.RISE] / 1000;
    fallRate = setup[S.FALL] / 1000;
    stopRate = setup[S.STOP] / 1000;
    dwell = setup[S.DWELL_MS];
  }

  return slew;
}

function magnitude(x: number): number {
  return x < 0 ? 0 - x : x;
}
