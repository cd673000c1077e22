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

/** Magic Formula with friction and stiffness in proportion to load, D = mu Fz. No trail. */
export class MagicFormula implements TyreModel {
  private readonly b: number;
  private readonly c: number;
  private readonly e: number;
  private readonly peak: number;

  constructor(stiffnessB: number, shapeC: number, curvatureE: number) {
    this.b = stiffnessB;
    this.c = shapeC;
    this.e = curvatureE;
    this.peak = peakOf(stiffnessB, shapeC, curvatureE);
  }

  force(slip: number, friction: number, load: number): number {
    return friction * load * magicFormula(this.b, this.c, this.e, slip);
  }

  stiffness(friction: number, load: number): number {
    return this.b * this.c * friction * load;
  }

  peakSlip(_friction: number, _load: number): number {
    return this.peak;
  }

  trail(_slip: number, _friction: number, _load: number): number {
    return 0;
  }
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
