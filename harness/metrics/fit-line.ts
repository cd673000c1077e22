import { Matrix, solve } from 'ml-matrix';

/** y = offset + slope x. */
export interface Line {
  offset: number;
  slope: number;
}

/** The line that fits best, least squares of y; at least two different x. */
export function fitLine(x: readonly number[], y: readonly number[]): Line {
  const found = solve(new Matrix(x.map((value) => [1, value])), Matrix.columnVector(y as number[]));
  return { offset: found.get(0, 0), slope: found.get(1, 0) };
}
