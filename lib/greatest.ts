/** The greatest magnitude among the first `count` values. */
export function greatest(values: number[], count: number): number {
  let most = 0;
  for (let i = 0; i < count; i++) {
    const a = values[i] < 0 ? 0 - values[i] : values[i];
    if (a > most) most = a;
  }
  return most;
}
