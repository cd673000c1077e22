import type { TyreShape } from './create-tyre-model.ts';

/** The ground in world coordinates: what lies where, and how it slopes. */
export interface Ground {
  /** The material where no patch lies. */
  base: Material;
  /** Rectangles that lie on it; where two overlap, the later one counts. */
  patches: Patch[];
  /** Slope, rad; 0 = level. */
  gradient: number;
  /** Heading in which it rises, rad from the world's x axis to the left. */
  uphill: number;
}

/** A floor as the tyres feel it. */
export interface Material {
  name: string;
  /** Friction coefficient. */
  friction: number;
  /** Rolling resistance: force over load. */
  rolling: number;
  /** Way a tyre rolls until 63 % of its force has built up, m. */
  relaxationLength: number;
  tyre: TyreShape;
}

/** A rectangle of another material along the world's axes, m; may reach to infinity. */
interface Patch {
  fromX: number;
  toX: number;
  fromY: number;
  toY: number;
  material: Material;
}

/** One material everywhere. */
export function evenGround(material: Material): Ground {
  return { base: material, patches: [], gradient: 0, uphill: 0 };
}

/** Split friction: one material to the left of the world's x axis, another to its right. */
export function splitGround(left: Material, right: Material): Ground {
  const patch = { fromX: -Infinity, toX: Infinity, fromY: 0, toY: Infinity, material: left };
  return { ...evenGround(right), patches: [patch] };
}

/** A slope that rises in the direction of the world's x axis, turned by `uphill`, rad. */
export function hill(ground: Ground, gradient: number, uphill = 0): Ground {
  return { ...ground, gradient, uphill };
}
