import { Matrix, solve } from 'ml-matrix';
import type { Samples } from './drive.ts';

/** Points that leave a chord by less than this share of its length lie on a straight line. */
const STRAIGHT = 1e-4;

/**
 * Radius of the circle that fits points best, m: least squares of x² + y² - 2 a x - 2 b y - c
 * (Kåsa 1976, IEEE Trans. Instrum. Meas. 25, from memory), exact where they lie on a circle.
 *
 * @returns Infinity if they lie on a straight line; undefined if there are fewer than three or they
 *   are all in one place
 */
export function fitCircle(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  { from, to }: Samples,
): number | undefined {
  if (to - from < 3) return undefined;
  // From the first point, in units of the way to the farthest and turned to it: then the
  // equations are well conditioned, and the same however the frame lies.
  let far = from;
  const way = (i: number) => Math.hypot(x[i]! - x[from]!, y[i]! - y[from]!);
  for (let i = from; i < to; i++) if (way(i) > way(far)) far = i;
  const extent = way(far);
  if (!(extent > 0)) return undefined;
  const cos = (x[far]! - x[from]!) / extent;
  const sin = (y[far]! - y[from]!) / extent;
  const points = new Matrix(to - from, 3);
  const squares = new Matrix(to - from, 1);
  let bulge = 0;
  for (let i = from; i < to; i++) {
    const [dx, dy] = [(x[i]! - x[from]!) / extent, (y[i]! - y[from]!) / extent];
    const along = cos * dx + sin * dy;
    const across = cos * dy - sin * dx;
    bulge = Math.max(bulge, Math.abs(across));
    points.setRow(i - from, [along, across, 1]);
    squares.set(i - from, 0, along * along + across * across);
  }
  if (bulge < STRAIGHT) return Infinity;
  const found = solve(points, squares);
  const [a, b] = [found.get(0, 0) / 2, found.get(1, 0) / 2];
  return Math.sqrt(a * a + b * b + found.get(2, 0)) * extent;
}
