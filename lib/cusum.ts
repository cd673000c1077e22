/**
 * One step of a one-sided CUSUM (Page 1954): C' = max(0, C + z - k). It alarms while C > h.
 *
 * @param sum C before the step
 * @param z residual over its standard deviation
 * @param k reference value: half of the shift to be found, in standard deviations
 * @param most the sum rises no further, so that it comes down in time once the shift is over
 */
export function cusum(sum: number, z: number, k: number, most: number): number {
  const next = sum + z - k;
  const kept = next > 0 ? next : 0;
  return kept > most ? most : kept;
}
