import { AT } from './at.ts';
import type { Frame } from './frame.ts';

const {
  ACROSS,
  ALONG,
  COS,
  DAMPER,
  DAMPING,
  DRIFT,
  FORCE,
  GRIP,
  LOAD,
  PER_RELAXATION,
  PX,
  PY,
  QUARTER_WEIGHT,
  RADIUS,
  RATE,
  RELAXATION,
  ROLLING,
  SENSITIVITY,
  SIDE_FORCE,
  SIN,
  SLIP_ACROSS,
  SLIP_ALONG,
  SLOW,
  SLOW_SPEED,
  SUM_MOMENT,
  SUM_X,
  SUM_Y,
  SURGE_X,
  SURGE_Y,
  SURGE_YAW,
} = AT;

/**
 * Forces of the four tyres from their deflections and loads, and their sum on the body.
 *
 * At low speed the deflection u + tau du/dt counts instead of u: the carcass is damped, so that a
 * car that has stopped comes to rest (after Pacejka 2012, ch. 8, and Bernard and Clover, SAE
 * 950311). The damping fades out with speed and does not alter a steady state.
 */
export function pressTyres(frame: Frame): void {
  const n = frame.numbers;
  const { model } = frame.tyre;
  const half = n[DRIFT]!;
  const quarter = n[QUARTER_WEIGHT]!;
  let slow = 0;
  for (let i = 0; i < 4; i++) {
    const perSigma = n[PER_RELAXATION + i]!;
    const rolling = n[ROLLING + i]!;
    const slowSpeed = n[SLOW_SPEED + i]!;
    let along = n[ALONG + i]!;
    let across = n[ACROSS + i]!;
    let damping = 0;
    if (rolling < slowSpeed) {
      const share = rolling / slowSpeed;
      damping = n[DAMPING + i]! * (1 - share * share) * (1 - share * share);
      // Velocities are those of the step's beginning; by its middle they have changed so much.
      const bx = half * (n[SURGE_X]! - n[SURGE_YAW]! * n[PY + i]!);
      const by = half * (n[SURGE_Y]! + n[SURGE_YAW]! * n[PX + i]!);
      const cos = n[COS + i]!;
      const sin = n[SIN + i]!;
      const cx = cos * bx + sin * by - half * n[RADIUS + i]! * n[RATE + i]!;
      const cy = cos * by - sin * bx;
      along -= damping * (n[SLIP_ALONG + i]! + cx + rolling * along * perSigma);
      across -= damping * (n[SLIP_ACROSS + i]! + cy + rolling * across * perSigma);
      if (damping > 0) slow = 1;
    }
    const load = n[LOAD + i]!;
    // Friction falls with load; it is the surface's at a quarter of the weight.
    const excess = load > 0 ? n[SENSITIVITY + i]! * (load / quarter - 1) : 0;
    const friction = n[GRIP + i]! * Math.max(0.1, 1 - excess);
    const slip = Math.sqrt(along * along + across * across) * perSigma + 1e-12;
    const secant = model[i]!.force(slip, friction, load) * (perSigma / slip);
    n[FORCE + i] = secant * along;
    n[SIDE_FORCE + i] = secant * across;
    n[DAMPER + i] = secant * damping;
  }
  n[SLOW] = slow;
  sumForces(frame);
}

/**
 * Sum of the tyres' forces on the body. Left and right are added first, so that mirrored forces
 * give exactly mirrored sums.
 */
export function sumForces(frame: Frame): void {
  const n = frame.numbers;
  let x = 0;
  let y = 0;
  let moment = 0;
  for (let left = 0; left < 4; left += 2) {
    const right = left + 1;
    const leftAlong = n[FORCE + left]!;
    const leftAcross = n[SIDE_FORCE + left]!;
    const rightAlong = n[FORCE + right]!;
    const rightAcross = n[SIDE_FORCE + right]!;
    const lx = n[COS + left]! * leftAlong - n[SIN + left]! * leftAcross;
    const ly = n[SIN + left]! * leftAlong + n[COS + left]! * leftAcross;
    const rx = n[COS + right]! * rightAlong - n[SIN + right]! * rightAcross;
    const ry = n[SIN + right]! * rightAlong + n[COS + right]! * rightAcross;
    x += lx + rx;
    y += ly + ry;
    moment += n[PX + left]! * (ly + ry) - (n[PY + left]! * lx + n[PY + right]! * rx);
  }
  n[SUM_X] = x;
  n[SUM_Y] = y;
  n[SUM_MOMENT] = moment;
  if (frame.tyre.hasTrail) align(frame);
}

/** The side forces of brush tyres act by their trail behind the wheels' middles. */
function align(frame: Frame): void {
  const { tyre, numbers: n } = frame;
  for (let left = 0; left < 4; left += 2) {
    let moment = 0;
    for (let i = left; i < left + 2; i++) {
      const along = n[ALONG + i]!;
      const across = n[ACROSS + i]!;
      const slip = Math.sqrt(along * along + across * across) / n[RELAXATION + i]!;
      const trail = tyre.model[i]!.trail(slip, n[GRIP + i]!, n[LOAD + i]!);
      moment += trail * n[SIDE_FORCE + i]!;
    }
    n[SUM_MOMENT] = n[SUM_MOMENT]! - moment;
  }
}
