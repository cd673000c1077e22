import type { ManoeuvreCar } from '../../harness/manoeuvres/manoeuvre.ts';
import { tracked } from '../../harness/plant/driveline.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { referenceCar } from '../plant/reference-car.ts';

/** The reference car, and what a manoeuvre may know of it. */
export function reference(floor: 'slippery' | 'grippy'): {
  description: PlantDescription;
  car: ManoeuvreCar;
} {
  const description = referenceCar(floor);
  const { body, steering, ground, battery, motors, wheelRadius } = description;
  return {
    description,
    car: {
      layout: 'pair',
      wheelbase: body.cgToFront + body.cgToRear,
      track: body.trackRear,
      cgToFront: body.cgToFront,
      length: 0.25,
      width: 0.125,
      lock: steering.lock,
      topSpeed: (battery.openCircuit[0]! / motors[0]!.constant) * wheelRadius[0]!,
      friction: ground.base.friction,
    },
  };
}

/** The same on tracks: both wheels of a side turn as one, and nothing is steered. */
export function trackedReference(floor: 'slippery' | 'grippy') {
  const { description, car } = reference(floor);
  return {
    description: {
      ...description,
      driveline: { ...tracked(1), shaftInertia: 1e-6 },
      steering: { ...description.steering, lock: 0 },
    },
    car: { ...car, layout: 'tracked', lock: Math.PI / 4 } as ManoeuvreCar,
  };
}
