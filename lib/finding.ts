import { Reaction } from './codes.ts';
import { Fit } from './fit.ts';

/** Says of each motor whether something is found: from its evidence, with hold and latch. */
export interface Finding {
  /** Bits of Found. */
  found: number;
  /** How sure the surest is, permille, 500 at the threshold, 1000 at most; 0 = nothing is found. */
  sure: number;
  /**
   * @param sums evidence for each motor
   * @param rise time that permits, ms
   */
  run(sums: number[], rise: number): void;
  /** Lets go of everything. */
  clear(): void;
  /**
   * @param reaction Reaction.OFF = nothing is looked for
   * @param h threshold, 1/100
   * @param hold how long it stays after the last sign of it, ms, or LATCHED
   */
  load(reaction: number, h: number, hold: number): void;
}

/** A finding that stays until it is cleared, or for weeks, ms. */
export const LATCHED = 2000000000;

/**
 * @param count number of motors
 * @param bit of Found for motor 0
 */
export function createFinding(count: number, bit: number): Finding {
  const left = [0, 0, 0, 0];
  let reaction: number = Reaction.OFF;
  let threshold = 1;
  let holdFor = 0;
  const finding = { found: 0, sure: 0, run: run, clear: clear, load: load };
  const surest = { sure: 0 };

  function run(sums: number[], rise: number): void {
    if (!Fit.SETUPS_CHANGE && reaction === Reaction.OFF) return;
    const asked = reaction !== Reaction.OFF;
    finding.found = look(surest, left, sums, asked, threshold, holdFor, bit, count, rise);
    finding.sure = surest.sure;
  }

  function clear(): void {
    for (let m = 0; m < count; m++) left[m] = 0;
  }

  function load(kind: number, h: number, hold: number): void {
    reaction = kind;
    threshold = h / 100;
    holdFor = hold;
  }

  return finding;
}

/** One function for all findings: where bytes count they share it. @returns bits of Found */
function look(
  surest: { sure: number },
  left: number[],
  sums: number[],
  asked: boolean,
  threshold: number,
  holdFor: number,
  bit: number,
  count: number,
  rise: number,
): number {
  let bits = 0;
  let sure = 0;
  for (let m = 0; m < count; m++) {
    const sum = sums[m];
    if (!asked) left[m] = 0;
    else if (sum > threshold) left[m] = holdFor + rise + 1;
    else left[m] = left[m] > rise ? left[m] - rise : 0;
    if (left[m] === 0) continue;
    bits |= bit << m;
    if (sure < 1) sure = 1;
    // Sums end at twice the threshold.
    const own = (sum * 500) / threshold;
    if (own > sure) sure = own;
  }
  // One that nothing is added to, as of a side that is driven lightly, may be of a setup before.
  if (Fit.SETUPS_CHANGE && sure > 1000) sure = 1000;
  surest.sure = sure;
  return bits;
}
