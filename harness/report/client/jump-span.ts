/** Room around a moment, seconds: enough to see what led to it. */
const AROUND_S = 2;

/** The stretch to show for something that lasted from `fromS` to `toS`: as much again each side. */
export function jumpSpan(fromS: number, toS: number): [fromS: number, toS: number] {
  const room = Math.max(AROUND_S, toS - fromS);
  return [fromS - room, toS + room];
}
