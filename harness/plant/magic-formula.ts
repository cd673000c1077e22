import type { TyreModel } from './tyre-model.ts';

/**
 * y = sin(C atan(B x - E (B x - atan(B x)))).
 *
 * Source: Bakker, Nyborg, Pacejka 1987, SAE 870421; Pacejka, Tyre and Vehicle Dynamics, eq. 4.49.
 */
export function magicFormula(b: number, c: number, e: number, x: number): number {
  const bx = b * x;
  return Math.sin(c * Math.atan(bx - e * (bx - Math.atan(bx))));
}

/** Intervals of the table. */
const PIECES = 512;

/**
 * Magic Formula with friction and stiffness in proportion to load, D = mu Fz. No trail.
 *
 * Three functions of the mathematics library a tyre and step would be most of a step's time, so the
 * curve is kept as cubic pieces with its exact values and slopes, over q = s / (s + peak slip),
 * which runs from 0 to 1. They follow the formula within a few parts in 1e8.
 */
export class MagicFormula implements TyreModel {
  private readonly slope: number;
  private readonly peak: number;
  /** Value and slope, in turn, at the ends of the pieces. */
  private readonly table: Float64Array;

  constructor(stiffnessB: number, shapeC: number, curvatureE: number) {
    this.slope = stiffnessB * shapeC;
    this.peak = peakOf(stiffnessB, shapeC, curvatureE);
    this.table = new Float64Array(2 * (PIECES + 2));
    for (let i = 0; i < PIECES; i++) {
      const q = i / PIECES;
      const x = (this.peak * q) / (1 - q);
      const { y, slope } = valueAndSlope(stiffnessB, shapeC, curvatureE, x);
      this.table[2 * i] = y;
      // dy/dq = dy/dx peak / (1 - q)^2, over one piece.
      this.table[2 * i + 1] = (slope * this.peak) / (1 - q) ** 2 / PIECES;
    }
    const { y, slope } = limits(stiffnessB, shapeC, curvatureE);
    this.table.set([y, slope / this.peak / PIECES, y, 0], 2 * PIECES);
  }

  force(slip: number, friction: number, load: number): number {
    const { table } = this;
    const t = (PIECES * slip) / (slip + this.peak);
    const piece = t | 0;
    const i = 2 * piece;
    const f = t - piece;
    const y = table[i]!;
    const d = table[i + 1]!;
    const rise = table[i + 2]! - y;
    const next = table[i + 3]!;
    const share = y + f * (d + f * (3 * rise - 2 * d - next + f * (d + next - 2 * rise)));
    return friction * load * share;
  }

  stiffness(friction: number, load: number): number {
    return this.slope * friction * load;
  }

  peakSlip(_friction: number, _load: number): number {
    return this.peak;
  }

  trail(_slip: number, _friction: number, _load: number): number {
    return 0;
  }
}

/** The formula and its derivative. */
function valueAndSlope(b: number, c: number, e: number, x: number) {
  const bx = b * x;
  const inner = bx - e * (bx - Math.atan(bx));
  const outer = c / (1 + inner * inner);
  const slope = Math.cos(c * Math.atan(inner)) * outer * b * (1 - e + e / (1 + bx * bx));
  return { y: magicFormula(b, c, e, x), slope };
}

/** Limits of y and of x^2 dy/dx for large x. */
function limits(b: number, c: number, e: number) {
  // With E = 1 the inner function is bounded by pi/2.
  const most = Math.PI / 2;
  const [angle, slope] = e === 1 ? [Math.atan(most), 1 / (1 + most * most)] : [most, 1 / (1 - e)];
  return { y: Math.sin(c * angle), slope: (Math.cos(c * angle) * c * slope) / b };
}

/** A curve that has no peak, or a late one, counts as saturated at B x of this. */
const LATE = 10;

/** Where C atan(...) = pi/2, by bisection. */
function peakOf(b: number, c: number, e: number): number {
  let low = 0;
  let high = LATE;
  const isPast = (bx: number) => c * Math.atan(bx - e * (bx - Math.atan(bx))) > Math.PI / 2;
  if (!isPast(high)) return high / b;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (isPast(middle)) high = middle;
    else low = middle;
  }
  return high / b;
}
