import { BrushTyre } from './brush-tyre.ts';
import { MagicFormula } from './magic-formula.ts';

/**
 * Force of an isotropic tyre against its combined slip
 * s = hypot(sigmaX, sigmaY), sigmaX = -Vsx / Vr, sigmaY = -Vsy / Vr, Vr = rolling speed
 * (similarity method; Pacejka, Tyre and Vehicle Dynamics, ch. 3 and 4). The force points along
 * the slip: Fx = F sigmaX / s, Fy = F sigmaY / s.
 */
export interface TyreModel {
  /**
   * @param slip combined slip, 0 or more
   * @param friction friction coefficient
   * @param load normal load, N
   * @returns force, N
   */
  force(slip: number, friction: number, load: number): number;
  /** dF/ds at no slip, N. */
  stiffness(friction: number, load: number): number;
  /** Slip at which the force is greatest. */
  peakSlip(friction: number, load: number): number;
  /** Distance by which the side force acts behind the wheel's middle, m. */
  trail(slip: number, friction: number, load: number): number;
}

/** Numbers of a tyre curve. */
export type TyreShape = MagicFormulaShape | BrushShape;

/** F = mu Fz sin(C atan(B s - E (B s - atan(B s)))). */
interface MagicFormulaShape {
  kind: 'magicFormula';
  stiffnessB: number;
  shapeC: number;
  curvatureE: number;
}

/** Brush with parabolic pressure. */
interface BrushShape {
  kind: 'brush';
  /** Slip stiffness of one tyre, N per unit of slip, whatever its load. */
  slipStiffness: number;
  /** Half the length of the contact, m. */
  halfContact: number;
}

/** @param stiffness factor on the slip stiffness of the shape */
export function createTyreModel(shape: TyreShape, stiffness: number): TyreModel {
  if (shape.kind === 'brush')
    return new BrushTyre(shape.slipStiffness * stiffness, shape.halfContact);
  return magicFormulaOf(shape.stiffnessB * stiffness, shape.shapeC, shape.curvatureE);
}

/** Curves are constant, and their tables cost as much as a second of driving. */
const CURVES = new Map<string, MagicFormula>();
const MOST_CURVES = 64;

function magicFormulaOf(b: number, c: number, e: number): MagicFormula {
  const key = `${b} ${c} ${e}`;
  const known = CURVES.get(key);
  if (known !== undefined) return known;
  if (CURVES.size >= MOST_CURVES) CURVES.clear();
  const curve = new MagicFormula(b, c, e);
  CURVES.set(key, curve);
  return curve;
}
