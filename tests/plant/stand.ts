import { fourMotors } from '../../harness/plant/driveline.ts';
import type {
  BatteryDescription,
  MotorDescription,
  PlantDescription,
} from '../../harness/plant/plant-description.ts';
import { referenceCar } from './reference-car.ts';

/** A motor with nothing to lose but what is asked for; constants of the reference car otherwise. */
export function bareMotor(motor: Partial<MotorDescription>): MotorDescription {
  const [plain] = referenceCar('slippery').motors;
  return { ...plain!, friction: 0, gearEfficiency: 1, ...motor };
}

/** A pack that never empties, without resistance. */
export function bareBattery(voltage: number): BatteryDescription {
  return {
    openCircuit: [voltage],
    capacity: Infinity,
    charge: 1,
    resistance: 0,
    slowResistance: 0,
    slowTime: 0,
  };
}

/** The reference car on a stand: wheels in the air, a motor each, wheels of hardly any inertia. */
export function onStand(motor: MotorDescription, battery: BatteryDescription): PlantDescription {
  const car = referenceCar('slippery');
  return {
    ...car,
    gravity: 0,
    wheelInertia: [1e-7, 1e-7, 1e-7, 1e-7],
    driveline: { ...fourMotors(1), shaftInertia: 1e-9 },
    motors: [motor, motor, motor, motor],
    battery,
  };
}
