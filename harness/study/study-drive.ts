import type { MotorVariation, PlantVariation } from '../plant/vary-plant.ts';
import type { FaultSpan } from '../simulate/fault-span.ts';

/** One simulated drive of the study; plain data, so that it can go to a worker. */
export interface StudyDrive {
  /** Number of the drive in its study; with the study's seed it says everything else. */
  id: number;
  /** Seed of sensors, radio link and sticks. */
  seed: number;
  /** Name of a demo garage. */
  garage: string;
  setup: string;
  surface: string;
  /** Name of a manoeuvre of the catalogue, or of the study's own. */
  manoeuvre: string;
  faults: FaultSpan[];
  variation: StudyVariation;
  conditions: Conditions;
}

/** Each motor differs in its own way. */
export type StudyVariation = PlantVariation & { motors: readonly MotorVariation[] };

/** What the study tells drives apart by, beside vehicle, surface and manoeuvre. */
export interface Conditions {
  /** Steps of the current sensing. */
  bits: 10 | 12;
  /** Sign of the error of the core's constants: -1 = the motor has 15 % less than it believes. */
  resistance: -1 | 0 | 1;
  constant: -1 | 0 | 1;
  /** Temperature of windings at the start, °C. */
  startC: number;
}
