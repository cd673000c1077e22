import { demoGarage } from '../demo/create-garage.ts';
import { type Garage, loadGarage } from '../setup/load-garage.ts';
import { planYawDrives, type YawBend } from './plan-yaw-drives.ts';
import { runYawBend, type YawResult } from './run-yaw-bend.ts';

/** How much to drive. */
export interface YawStudy {
  /** Cars and gyros drawn for each setup and manoeuvre. */
  repeats: number;
  seed: number;
  /** Which bends; all if left out. */
  wants?: (bend: YawBend) => boolean;
  /** Told after each bend. */
  progress?: (done: number, of: number) => void;
}

/** The demo vehicle with a gyro; every one of its setups has yaw assist. */
export function yawGarage(): Promise<Garage> {
  return loadGarage(demoGarage('hatch'));
}

/** Drives all bends of a study. The same study gives the same results. */
export function studyYaw(garage: Garage, study: YawStudy): YawResult[] {
  const names = garage.setups.map(({ name }) => name);
  const bends = planYawDrives(names, study.repeats, study.seed).filter(study.wants ?? (() => true));
  return bends.map((bend, i) => {
    const result = runYawBend(garage, bend);
    study.progress?.(i + 1, bends.length);
    return result;
  });
}
