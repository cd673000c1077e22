import type { Expression } from 'acorn';
import { literal } from './tree.ts';

/**
 * The shortest way to write a number that is no whole one: the ratio of the two smallest whole
 * numbers whose quotient, rounded as IEEE 754 rounds it, is that number to the last bit.
 *
 * @returns undefined if a part would not be a safe integer
 */
export function simplestRatio(value: number): Expression | undefined {
  const size = Math.abs(value);
  if (!(size > LEAST && size < MOST)) return undefined;
  // Doubled, so that the bounds half a unit of the last place away are whole, too.
  let scale = 1n;
  let part = size;
  while (part < 2 ** 52) {
    part *= 2;
    scale *= 2n;
  }
  const whole = BigInt(part);
  const [p, q] = simplestBetween(2n * whole - 1n, 2n * whole + 1n, 2n * scale);
  const [top, bottom] = [Number(p), Number(q)];
  if (!Number.isSafeInteger(top) || !Number.isSafeInteger(bottom)) return undefined;
  if (top / bottom !== size) return undefined;
  return {
    type: 'BinaryExpression',
    operator: '/',
    left: literal(value < 0 ? -top : top),
    right: literal(bottom),
    start: 0,
    end: 0,
  };
}

/** Beyond these no ratio of safe integers is near enough, or the number is whole. */
const LEAST = 2 ** -53;
const MOST = 2 ** 53;

/** The fraction with the smallest denominator between low / scale and high / scale. */
function simplestBetween(low: bigint, high: bigint, scale: bigint): [bigint, bigint] {
  // Along the continued fraction that both bounds share.
  let [lowTop, lowBottom, highTop, highBottom] = [low, scale, high, scale];
  let [p0, q0, p1, q1] = [0n, 1n, 1n, 0n];
  for (;;) {
    const whole = lowTop / lowBottom;
    const next = highTop > (whole + 1n) * highBottom ? whole + 1n : undefined;
    if (next !== undefined || lowTop % lowBottom === 0n) {
      const last = next ?? whole;
      return [last * p1 + p0, last * q1 + q0];
    }
    [p0, q0, p1, q1] = [p1, q1, whole * p1 + p0, whole * q1 + q0];
    [lowTop, lowBottom, highTop, highBottom] = [
      highBottom,
      highTop - whole * highBottom,
      lowBottom,
      lowTop - whole * lowBottom,
    ];
  }
}
