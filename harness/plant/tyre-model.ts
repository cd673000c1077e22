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
