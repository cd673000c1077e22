import type { Frame } from './frame.ts';

/** Indices of the first side force and the first load in `state.force`. */
const ACROSS = 4;
const LOAD = 8;

/**
 * Forces of the four tyres from their deflections and loads, and their sum on the body.
 *
 * At low speed the deflection u + tau du/dt counts instead of u: the carcass is damped, so that a
 * car that has stopped comes to rest (after Pacejka 2012, ch. 8, and Bernard and Clover, SAE
 * 950311). The damping fades out with speed and does not alter a steady state.
 */
export function pressTyres(frame: Frame): void {
  const { tyre, contact, ease, cos, sin, px, py, radius } = frame;
  const { force, deflection, surge, rates } = frame.state;
  const { damper } = ease;
  const half = frame.span[1]!;
  const quarter = frame.weight[1]!;
  ease.slow[0] = 0;
  for (let i = 0; i < 4; i++) {
    const perSigma = tyre.perRelaxation[i]!;
    const rolling = contact.rolling[i]!;
    const slowSpeed = tyre.slowSpeed[i]!;
    let along = deflection[i]!;
    let across = deflection[i + 4]!;
    let damping = 0;
    if (rolling < slowSpeed) {
      const share = rolling / slowSpeed;
      damping = tyre.damping[i]! * (1 - share * share) * (1 - share * share);
      // Velocities are those of the step's beginning; by its middle they have changed so much.
      const bx = half * (surge[0]! - surge[2]! * py[i]!);
      const by = half * (surge[1]! + surge[2]! * px[i]!);
      const cx = cos[i]! * bx + sin[i]! * by - half * radius[i]! * rates[i]!;
      const cy = cos[i]! * by - sin[i]! * bx;
      along -= damping * (contact.along[i]! + cx + rolling * along * perSigma);
      across -= damping * (contact.across[i]! + cy + rolling * across * perSigma);
      if (damping > 0) ease.slow[0] = 1;
    }
    const load = force[LOAD + i]!;
    // Friction falls with load; it is the surface's at a quarter of the weight.
    const excess = load > 0 ? tyre.sensitivity[i]! * (load / quarter - 1) : 0;
    const friction = tyre.friction[i]! * Math.max(0.1, 1 - excess);
    const slip = Math.sqrt(along * along + across * across) * perSigma + 1e-12;
    const secant = tyre.model[i]!.force(slip, friction, load) * (perSigma / slip);
    force[i] = secant * along;
    force[ACROSS + i] = secant * across;
    damper[i] = secant * damping;
  }
  sumForces(frame);
}

/**
 * Sum of the tyres' forces on the body. Left and right are added first, so that mirrored forces
 * give exactly mirrored sums.
 */
export function sumForces(frame: Frame): void {
  const { px, py, cos, sin, sum, tyre } = frame;
  const { force } = frame.state;
  sum[0] = 0;
  sum[1] = 0;
  sum[2] = 0;
  for (let left = 0; left < 4; left += 2) {
    const right = left + 1;
    const lx = cos[left]! * force[left]! - sin[left]! * force[ACROSS + left]!;
    const ly = sin[left]! * force[left]! + cos[left]! * force[ACROSS + left]!;
    const rx = cos[right]! * force[right]! - sin[right]! * force[ACROSS + right]!;
    const ry = sin[right]! * force[right]! + cos[right]! * force[ACROSS + right]!;
    sum[0] = sum[0]! + (lx + rx);
    sum[1] = sum[1]! + (ly + ry);
    sum[2] = sum[2]! + (px[left]! * (ly + ry) - (py[left]! * lx + py[right]! * rx));
  }
  if (tyre.hasTrail) align(frame);
}

/** The side forces of brush tyres act by their trail behind the wheels' middles. */
function align(frame: Frame): void {
  const { tyre, sum, state } = frame;
  for (let left = 0; left < 4; left += 2) {
    let moment = 0;
    for (let i = left; i < left + 2; i++) {
      const along = state.deflection[i]!;
      const across = state.deflection[i + 4]!;
      const slip = Math.sqrt(along * along + across * across) / tyre.relaxation[i]!;
      const trail = tyre.model[i]!.trail(slip, tyre.friction[i]!, state.force[LOAD + i]!);
      moment += trail * state.force[ACROSS + i]!;
    }
    sum[2] = sum[2]! - moment;
  }
}
