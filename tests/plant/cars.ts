import {
  axlePair,
  fourMotors,
  rearPair,
  singleMotor,
  tracked,
} from '../../harness/plant/driveline.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { referenceCar } from './reference-car.ts';

const grippy = referenceCar('grippy');

function withDriveline(
  name: string,
  driveline: ReturnType<typeof singleMotor>,
  changes: Partial<PlantDescription> = {},
): PlantDescription {
  const [motor] = grippy.motors;
  return {
    ...grippy,
    ...changes,
    name,
    driveline: { ...driveline, shaftInertia: 1e-6 },
    motors: driveline.motors.map(() => motor!),
  };
}

/** The reference car on both floors, and its body on every layout, with all that loses energy. */
export const CARS: PlantDescription[] = [
  referenceCar('slippery'),
  grippy,
  withDriveline('single, open', singleMotor('rear', 'open', 1)),
  withDriveline('single, locked, all wheels', singleMotor('all', 'locked', 1)),
  withDriveline('pair', rearPair('none', 1), {
    body: { ...grippy.body, dragArea: 0.01 },
    motors: [],
    tyres: {
      front: { friction: 1.1, stiffness: 0.8, loadSensitivity: 0.15 },
      rear: { friction: 1, stiffness: 1, loadSensitivity: 0.15 },
    },
    battery: {
      openCircuit: [6, 7, 7.4, 8],
      capacity: 400,
      charge: 0.9,
      resistance: 0.08,
      slowResistance: 0.05,
      slowTime: 3,
    },
  }),
  withDriveline('axle pair', axlePair(1)),
  withDriveline('four motors', fourMotors(1)),
  // Geared down, or it could not scrub its tracks sideways.
  withDriveline('tracked', tracked(2.5), {
    steering: { ...grippy.steering, lock: 0 },
    ground: referenceCar('slippery').ground,
  }),
];
