import type { BackEmf } from './back-emf.ts';
import { Layout } from './codes.ts';
import { V } from './constants.ts';
import type { VehicleSpeed } from './vehicle-speed.ts';

/** Says of a tracked vehicle whether it bends: tracks slip and scrub in every bend. */
export interface BendWatch {
  /** While driven apart, and a short while after; never without tracks. */
  bends: boolean;
  /**
   * @param last command of each motor in the last tick, permille
   * @param stop time that forbids, ms
   */
  run(last: number[], stop: number): void;
  /**
   * Speed of the other track in the direction of this one's command, mm/s, if it is driven that
   * way as well; else 0: while one idles or brakes, the ground may hold the other fast.
   *
   * @param m motor of this track
   */
  beside(motors: BackEmf, ground: VehicleSpeed, last: number[], m: number): number;
}

/** Tracks count as driven apart from this difference of their commands on, permille ... */
const STRAIGHT = 50;
/** ... and so long after, ms. */
const SETTLES = 300;
/** Greatest command of a track over the other's, both driven the same way. */
const ALIKE = 5 / 2;

/** @param vehicle constants of the vehicle */
export function createBendWatch(vehicle: number[]): BendWatch {
  const tracked = vehicle[V.LAYOUT] === Layout.TRACKED;
  const error = vehicle[V.CURRENT_ERROR_MA];
  let turned = 0;
  const watch = { bends: false, run: run, beside: beside };

  function run(last: number[], stop: number): void {
    if (!tracked) return;
    const apart = last[0] - last[1];
    if (apart > STRAIGHT || apart < 0 - STRAIGHT) turned = SETTLES + stop;
    turned = turned > stop ? turned - stop : 0;
    watch.bends = turned > 0;
  }

  function beside(motors: BackEmf, ground: VehicleSpeed, last: number[], m: number): number {
    const way = last[m] < 0 ? -1 : 1;
    const w = ground.along[m ^ 1] * way;
    const drives = motors.current[m ^ 1] * way > error;
    return w > 0 && drives && last[m ^ 1] * way * ALIKE >= last[m] * way ? w : 0;
  }

  return watch;
}
