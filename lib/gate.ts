/**
 * The last stage of each motor, in integers and counted in ticks, so that no clock and no fault of
 * a stage before it can break a limit: clamp, ceiling on a rise, rest at zero between directions,
 * enable. Its whole domain is enumerated in tests/limits/gate.test.ts.
 */
export interface Gates {
  /** The command of each motor that left last, permille, an integer. */
  passed: number[];
  /**
   * @param i index of the motor
   * @param request wanted command, permille; any number, cut to an integer towards zero
   * @param enable 1 = may drive; anything else = 0 at once
   * @param cap greatest magnitude, permille, an integer from 0 to 1000
   * @returns the command that leaves
   */
  run(i: number, request: number, enable: number, cap: number): number;
}

/**
 * @param rise greatest rise of the magnitude in one tick, permille
 * @param dwell ticks at zero before the other direction
 */
export function createGates(rise: number, dwell: number): Gates {
  const passed = [0, 0, 0, 0];
  const direction = [0, 0, 0, 0];
  const rest = [dwell, dwell, dwell, dwell];

  function run(i: number, request: number, enable: number, cap: number): number {
    // Compared before it is cut to 32 bits: a huge request must not wrap round to the other sign.
    let bounded = request > cap ? cap : request;
    if (bounded < 0 - cap) bounded = 0 - cap;
    let wanted = enable === 1 ? bounded | 0 : 0;
    const now = passed[i];
    if (now !== 0) {
      if (wanted > 0 !== now > 0) wanted = 0;
      if (wanted === 0) {
        rest[i] = 0;
        direction[i] = now;
      }
    } else if (rest[i] < dwell) {
      rest[i] = rest[i] + 1;
      if (wanted > 0 !== direction[i] > 0) wanted = 0;
    }
    // What is still wanted here points the way the motor turns, or the motor is at zero.
    if (wanted > now + rise && wanted > 0) wanted = now + rise;
    else if (wanted < now - rise && wanted < 0) wanted = now - rise;
    passed[i] = wanted;
    return wanted;
  }

  return { passed: passed, run: run };
}
