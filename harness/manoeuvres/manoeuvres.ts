import { brake } from './brake.ts';
import { brakeHard } from './brake-hard.ts';
import { constantRadius } from './constant-radius.ts';
import { constantSpeed } from './constant-speed.ts';
import { constantSteer } from './constant-steer.ts';
import { dropout } from './dropout.ts';
import { hill } from './hill.ts';
import { jam } from './jam.ts';
import { laneChange } from './lane-change.ts';
import { launchCircle } from './launch-circle.ts';
import { liftOff } from './lift-off.ts';
import type { Manoeuvre } from './manoeuvre.ts';
import { pivotTurn } from './pivot-turn.ts';
import { shaftSlip } from './shaft-slip.ts';
import { sineSteer } from './sine-steer.ts';
import { slalom } from './slalom.ts';
import { splitStart } from './split-start.ts';
import { starts } from './starts.ts';
import { stepSteer } from './step-steer.ts';
import { topSpeed } from './top-speed.ts';

/** Every manoeuvre, in the order in which a builder would drive them. */
export const MANOEUVRES: readonly Manoeuvre[] = [
  launchCircle,
  topSpeed,
  brake,
  brakeHard,
  constantRadius,
  constantSteer,
  constantSpeed,
  stepSteer,
  sineSteer,
  liftOff,
  slalom,
  laneChange,
  splitStart,
  starts,
  hill,
  pivotTurn,
  dropout,
  shaftSlip,
  jam,
];
