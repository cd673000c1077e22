import type { TyreModel } from './tyre-model.ts';

/**
 * Isotropic brush with parabolic pressure: F = mu Fz (1 - lambda^3), lambda = 1 - theta s,
 * theta = C / (3 mu Fz), full sliding from theta s = 1 on; trail
 * a lambda^3 (1 - lambda) / (1 - lambda^3).
 *
 * Source: Pacejka, Tyre and Vehicle Dynamics, ch. 3 (eqs 3.8-3.13, 3.34-3.38); the same cubic in
 * Fiala 1954.
 */
export class BrushTyre implements TyreModel {
  private readonly slipStiffness: number;
  private readonly halfContact: number;

  constructor(slipStiffness: number, halfContact: number) {
    this.slipStiffness = slipStiffness;
    this.halfContact = halfContact;
  }

  force(slip: number, friction: number, load: number): number {
    const most = friction * load;
    // q (3 - 3 q + q^2) is 1 - (1 - q)^3 without loss of digits at small slip.
    const q = (this.slipStiffness * slip) / (3 * most);
    return q < 1 ? most * q * (3 - 3 * q + q * q) : most;
  }

  stiffness(_friction: number, _load: number): number {
    return this.slipStiffness;
  }

  peakSlip(friction: number, load: number): number {
    return (3 * friction * load) / this.slipStiffness;
  }

  trail(slip: number, friction: number, load: number): number {
    const q = (this.slipStiffness * slip) / (3 * friction * load);
    if (!(q < 1)) return 0;
    const lambda = 1 - q;
    return (this.halfContact * lambda * lambda * lambda) / (3 - 3 * q + q * q);
  }
}
