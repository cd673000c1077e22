/**
 * The last stage for one motor, in integers and counted in ticks, so that no clock and no fault of
 * a stage before it can break a limit: clamp, ceiling on a rise, rest at zero between directions,
 * enable. Its whole domain is enumerated in tests/limits/gate.test.ts.
 */
export interface Gate {
  /** The command that leaves, permille, an integer. */
  value: number;
  /**
   * @param request wanted command, permille; any number, cut to an integer towards zero
   * @param enable 1 = may drive; anything else = 0 at once
   * @param cap greatest magnitude, permille, an integer from 0 to 1000
   */
  step(request: number, enable: number, cap: number): void;
}

/**
 * @param rise greatest rise of the magnitude in one tick, permille
 * @param dwell ticks at zero before the other direction
 */
export function createGate(rise: number, dwell: number): Gate {
  let direction = 0;
  let rest = dwell;
  const gate = { value: 0, step: step };

  function step(request: number, enable: number, cap: number): void {
    // Compared before it is cut to 32 bits: a huge request must not wrap round to the other sign.
    let wanted = request > cap ? cap : request < 0 - cap ? 0 - cap : request | 0;
    if (enable !== 1) wanted = 0;
    const sign = wanted > 0 ? 1 : wanted < 0 ? 0 - 1 : 0;
    if (gate.value !== 0) {
      if (sign !== direction) wanted = 0;
      rest = 0;
    } else {
      if (rest < dwell) {
        rest = rest + 1;
        if (sign !== direction) wanted = 0;
      }
      if (wanted !== 0) direction = sign;
    }
    const magnitude = wanted < 0 ? 0 - wanted : wanted;
    const most = (gate.value < 0 ? 0 - gate.value : gate.value) + rise;
    if (magnitude > most) wanted = wanted < 0 ? 0 - most : most;
    gate.value = wanted;
  }

  return gate;
}
