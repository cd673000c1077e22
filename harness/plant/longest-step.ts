import type { Frame } from './frame.ts';
import { TORQUES } from './project-driveline.ts';

/** The longest step for which the integration is sure to be stable, and what limits it. */
export interface StepLimit {
  /** s */
  step: number;
  /** The constant that limits it, by its path in the description. */
  field: string;
}

/**
 * Two kinds of mode limit the step. A mass on the spring of its deflected tyres oscillates with
 * f rad/s; Störmer-Verlet is stable up to 2 / f, of which half is allowed. A motor is braked by its
 * own voltage at the rate k^2 H / R; the extrapolated speed is stable up to 1 / rate (Adams-
 * Bashforth), of which half is allowed.
 */
export function longestStep(frame: Frame): StepLimit {
  const { description, tyre, radius, response } = frame;
  const { mass, yawInertia } = description.body;
  const limits: StepLimit[] = [];
  let turning = 0;
  let swaying = 0;
  for (let i = 0; i < 4; i++) {
    const axle = i < 2 ? 'rear' : 'front';
    // A wheel may carry half the weight.
    const springs = tyre.grounds.map(
      ({ [axle]: footing }) =>
        footing.model.stiffness(footing.friction, (mass * description.gravity) / 2) /
        footing.relaxation,
    );
    const spring = Math.max(...springs);
    let mobility = 0;
    for (let j = 0; j < 4; j++) mobility += Math.abs(response[i * TORQUES + j]!);
    const own = spring * (radius[i]! ** 2 * mobility + 4 / mass);
    limits.push({ step: 1 / Math.sqrt(own), field: `wheelInertia[${i}]` });
    swaying += spring / mass;
    turning += (spring * (frame.px[i]! ** 2 + frame.py[i]! ** 2)) / yawInertia;
  }
  limits.push({ step: 1 / Math.sqrt(swaying), field: 'body.mass' });
  limits.push({ step: 1 / Math.sqrt(turning), field: 'body.yawInertia' });
  for (const [m, motor] of description.motors.entries()) {
    const mobility = response[(4 + m) * TORQUES + 4 + m]!;
    const rate = (motor.constant ** 2 * mobility) / motor.resistance / motor.gearEfficiency;
    limits.push({ step: 0.5 / rate, field: `motors[${m}].inertia` });
  }
  return limits.reduce((least, limit) => (limit.step < least.step ? limit : least));
}
