import { MISSING } from '../../lib/index.ts';

/**
 * Compares a motor's currents in its starts from rest with what it would draw if held fast: there
 * is no back-EMF yet, so their ratio is near 1 whatever the vehicle and its floor.
 */
export interface StartCurrents {
  /**
   * @param stepMs time since the last tick, ms
   * @param permille command of the motor
   * @param ma its current, mA, or MISSING
   * @param volts supply, V
   */
  observe(stepMs: number, permille: number, ma: number, volts: number): void;
  /** Current over current if held fast, of each start; negative = against the drive. */
  finish(): number[];
}

/** A motor commanded nothing for so long is at rest, or nearly, ms. */
const REST_MS = 500;
/** So long after a rest the back-EMF is small, ms. */
const START_MS = 300;
/** With smaller commands noise decides, and some bridges let the current pause, permille. */
const LEAST_DRIVE = 50;
/** Fewer samples make no start. */
const LEAST_SAMPLES = 3;
/** More starts tell nothing new. */
const MOST_STARTS = 500;

/** @param ohm resistance of the motor */
export function createStartCurrents(ohm: number): StartCurrents {
  const ratios: number[] = [];
  let restMs = 0;
  let startMs = Infinity;
  let samples = 0;
  let measured = 0;
  let held = 0;

  function observe(stepMs: number, permille: number, ma: number, volts: number): void {
    if (permille === 0) {
      close();
      restMs += stepMs;
      return;
    }
    if (restMs >= REST_MS) startMs = 0;
    restMs = 0;
    startMs += stepMs;
    if (startMs > START_MS) close();
    else if (Math.abs(permille) >= LEAST_DRIVE && ma !== MISSING) {
      samples++;
      measured += ma * Math.sign(permille);
      held += (volts * Math.abs(permille)) / ohm;
    }
  }

  function close(): void {
    if (samples >= LEAST_SAMPLES && ratios.length < MOST_STARTS) ratios.push(measured / held);
    startMs = Infinity;
    samples = 0;
    measured = 0;
    held = 0;
  }

  return {
    observe,
    finish: () => {
      close();
      return ratios;
    },
  };
}
