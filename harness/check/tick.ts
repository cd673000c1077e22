import type { Inputs, Outputs } from '../../lib/index.ts';

/** One tick as the limit monitors see it. A run has one record; its values change in place. */
export interface Tick {
  /** Run time: sum of the steps in which the run's clock ran forward, ms. */
  atMs: number;
  /** What the core consumed: integers or MISSING. */
  inputs: Inputs;
  /** What the core commanded; the four unrounded signals may be cut to integers. */
  outputs: Outputs;
  /** What it commanded in the tick before; at rest before the first. */
  before: Outputs;
  /** Number of motors. */
  motors: number;

  /** Time that permits (a command to rise, a timer that arms to run), ms. */
  permitMs: number;
  /** Time that forbids (a stop, a timer that ends a drive), ms. */
  forbidMs: number;
  /** The time stamp was missing, repeated or ran backwards. */
  odd: boolean;
  /** Ticks too far apart, or the clock odd for too long: a loss of signal. */
  timeLost: boolean;

  /** Least and greatest value of each setup constant in force; they differ while setups fade. */
  lo: number[];
  hi: number[];
  /** Two setups may be in force. */
  fading: boolean;

  /** Both pulses lie inside their calibration and have an age. */
  valid: boolean;
  /** Age of the newest valid pulses, ms, counted on while none come. */
  staleMs: number;
  /** Older than any hold time in force, or time was lost. */
  lost: boolean;
  /** Every stick that drives lies inside the widest dead band in force. */
  neutral: boolean;
  /** Every stick that drives lies inside the narrowest dead band in force. */
  surelyNeutral: boolean;
  /** A fresh neutral stick was held for as long as arming takes, and nothing ended that since. */
  armed: boolean;
  /** Became armed in this tick. */
  justArmed: boolean;

  /** Greatest magnitude among the motors, permille; now and in the tick before. */
  most: number;
  mostBefore: number;
  /** Supply voltage through the core's low-pass, mV; the nominal one while none was measured. */
  supplyMv: number;
  /** The vehicle has a supply sensor, and it gave no sample. */
  supplyLost: boolean;
}
