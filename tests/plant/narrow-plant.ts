import { rearPair } from '../../harness/plant/driveline.ts';
import { evenGround } from '../../harness/plant/ground.ts';
import { createPlant, type Plant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { referenceCar } from './reference-car.ts';

/** What a linear single-track vehicle is made of, SI; axle stiffnesses in N/rad. */
export interface Linear {
  m: number;
  inertia: number;
  lf: number;
  lr: number;
  front: number;
  rear: number;
}

/** Steering angle of its full command, rad; small, so that angles are their own sines. */
export const NARROW_LOCK = 0.002;

/**
 * The full plant made narrow and linear: hardly any track, mass on the ground, tyres far from
 * sliding with hardly any relaxation, nothing that slows it down.
 */
export function narrowPlant({ m, inertia, lf, lr, front, rear }: Linear): Plant {
  const car = referenceCar('slippery');
  const description: PlantDescription = {
    ...car,
    body: {
      ...car.body,
      mass: m,
      yawInertia: inertia,
      cgToFront: lf,
      cgToRear: lr,
      trackFront: 1e-3,
      trackRear: 1e-3,
      cgHeight: 0,
    },
    steering: { lock: NARROW_LOCK, rate: 1000, ackermann: 1 },
    driveline: { ...rearPair('none', 1), shaftInertia: 1e-6 },
    motors: car.motors.map((motor) => ({ ...motor, friction: 0 })),
    tyres: {
      front: { friction: 1, stiffness: front / rear, loadSensitivity: 0 },
      rear: { friction: 1, stiffness: 1, loadSensitivity: 0 },
    },
    ground: evenGround({
      name: 'endless grip',
      friction: 1000,
      rolling: 0,
      relaxationLength: 2e-5,
      tyre: { kind: 'brush', slipStiffness: rear / 2, halfContact: 0 },
    }),
  };
  return createPlant(description);
}
