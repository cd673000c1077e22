/** Reference value k and decision interval h of a one-sided CUSUM, in standard deviations. */
export interface CusumDesign {
  k: number;
  h: number;
}

/**
 * The design that finds the smallest shift within a mean time and, without a shift, alarms as
 * seldom as wanted. Siegmund 1985 (in Montgomery, Introduction to Statistical Quality Control,
 * ch. 9): ARL = (exp(-2 D b) + 2 D b - 1) / (2 D²) with b = h + 1.166 and D = shift - k;
 * k = shift/2 is the best for that shift.
 *
 * @param findTicks mean number of samples until a shift of 2k is found, more than 1
 * @param falseTicks mean number of samples between two false alarms, more than that
 */
export function solveCusum(findTicks: number, falseTicks: number): CusumDesign {
  let [least, most] = [MOST / 1e6, MOST];
  for (let i = 0; i < HALVINGS; i++) {
    const k = (least + most) / 2;
    if (averageRunLength(k, intervalFor(k, falseTicks)) > findTicks) least = k;
    else most = k;
  }
  return { k: most, h: intervalFor(most, falseTicks) };
}

/** Greatest reference value that is looked at; a shift of twice that is gross. */
const MOST = 20;
const HALVINGS = 60;
/** Siegmund's correction for the overshoot. */
const OVERSHOOT = 1.166;

/** Siegmund's approximation; `drift` is shift - k. */
export function averageRunLength(drift: number, h: number): number {
  const b = h + OVERSHOOT;
  const x = 2 * drift * b;
  if (Math.abs(x) < 1e-6) return b * b;
  return (Math.expm1(-x) + x) / (2 * drift * drift);
}

/** Least interval above 0 with which a CUSUM of `k` alarms no oftener without a shift. */
export function intervalFor(k: number, falseTicks: number): number {
  let [least, most] = [0.01, 1];
  while (averageRunLength(-k, most) < falseTicks) most *= 2;
  for (let i = 0; i < HALVINGS; i++) {
    const h = (least + most) / 2;
    if (averageRunLength(-k, h) < falseTicks) least = h;
    else most = h;
  }
  return most;
}
