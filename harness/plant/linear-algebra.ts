/** A dense matrix, row by row. */
export type Matrix = number[][];

/** a b */
export function multiply(a: Matrix, b: Matrix): Matrix {
  const columns = b[0]?.length ?? 0;
  return a.map((row) =>
    Array.from({ length: columns }, (_, j) =>
      row.reduce((sum, value, k) => sum + value * b[k]![j]!, 0),
    ),
  );
}

/** The matrix mirrored at its diagonal. */
export function transpose(a: Matrix): Matrix {
  return Array.from({ length: a[0]?.length ?? 0 }, (_, j) => a.map((row) => row[j]!));
}

/** Inverse of a symmetric positive definite matrix, by elimination without pivoting. */
export function invert(matrix: Matrix): Matrix {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    const pivot = rows[i]![i]!;
    rows[i] = rows[i]!.map((value) => value / pivot);
    for (let k = 0; k < n; k++) {
      const factor = rows[k]![i]!;
      if (k !== i) rows[k] = rows[k]!.map((value, j) => value - factor * rows[i]![j]!);
    }
  }
  return rows.map((row) => row.slice(n));
}
