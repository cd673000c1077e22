import { BrushTyre } from './brush-tyre.ts';
import { MagicFormula } from './magic-formula.ts';
import type { TyreModel } from './tyre-model.ts';

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
