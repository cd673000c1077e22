import type { MotorDescription, PlantDescription } from './plant-description.ts';
import type { SensorChannel, SensorDescription } from './sensors.ts';

/**
 * How one real vehicle differs from its description: what a core that is baked from the description
 * does not know. What is left out is as described. Factors multiply; all are more than 0.
 */
export interface PlantVariation {
  /** Factors on mass, yaw inertia, and the rolling radius of every wheel. */
  mass?: number;
  yawInertia?: number;
  wheelRadius?: number;
  /** Factors on friction and rolling resistance of everything it may drive on. */
  friction?: number;
  rolling?: number;
  /** Of all motors alike, or of each in the order of the motors. */
  motors?: MotorVariation | readonly MotorVariation[];
  battery?: BatteryVariation;
  /** Errors of what is fitted, in place of those described; what is not fitted stays away. */
  sensors?: Partial<Record<keyof SensorDescription, Partial<SensorChannel>>>;
}

/** How a motor differs. */
export interface MotorVariation {
  /** Factors on motor constant, cold resistance, dry friction, and inertia of the rotor. */
  constant?: number;
  resistance?: number;
  friction?: number;
  inertia?: number;
  /** Temperature of winding and housing at the start, °C: it has been driven before. */
  startC?: number;
}

/** How a pack differs; more resistance is more sag. */
interface BatteryVariation {
  /** Factors on the open-circuit voltage at any charge, and on both resistances. */
  voltage?: number;
  resistance?: number;
  /** Charge at the start, 0..1. */
  charge?: number;
}

/**
 * The vehicle that stands on the floor, made of the one on paper. The result is checked like any
 * other where a plant is made of it.
 */
export function varyPlant(plant: PlantDescription, by: PlantVariation): PlantDescription {
  const { mass = 1, yawInertia = 1, wheelRadius = 1 } = by;
  const { body } = plant;
  return {
    ...plant,
    body: { ...body, mass: body.mass * mass, yawInertia: body.yawInertia * yawInertia },
    wheelRadius: plant.wheelRadius.map((radius) => radius * wheelRadius),
    motors: plant.motors.map((motor, m) => varyMotor(motor, variationOf(by, m))),
    battery: varyBattery(plant.battery, by.battery ?? {}),
    ground: varyGround(plant.ground, by),
    sensors: varySensors(plant.sensors, by.sensors ?? {}),
  };
}

/** Step of a converter of so many bits over a range, in the unit of the range; at least 1. */
export function converterStep(bits: number, range: number): number {
  return Math.max(range / 2 ** bits, 1);
}

function variationOf({ motors = {} }: PlantVariation, index: number): MotorVariation {
  const isList = (value: typeof motors): value is readonly MotorVariation[] => Array.isArray(value);
  return isList(motors) ? (motors[index] ?? {}) : motors;
}

function varyMotor(motor: MotorDescription, by: MotorVariation): MotorDescription {
  return {
    ...motor,
    constant: motor.constant * (by.constant ?? 1),
    resistance: motor.resistance * (by.resistance ?? 1),
    friction: motor.friction * (by.friction ?? 1),
    inertia: motor.inertia * (by.inertia ?? 1),
    heat: { ...motor.heat, startC: by.startC ?? motor.heat.startC },
  };
}

function varyBattery(
  battery: PlantDescription['battery'],
  { voltage = 1, resistance = 1, charge = battery.charge }: BatteryVariation,
): PlantDescription['battery'] {
  return {
    ...battery,
    openCircuit: battery.openCircuit.map((value) => value * voltage),
    charge,
    resistance: battery.resistance * resistance,
    slowResistance: battery.slowResistance * resistance,
  };
}

function varyGround(
  ground: PlantDescription['ground'],
  { friction = 1, rolling = 1 }: PlantVariation,
): PlantDescription['ground'] {
  const vary = (material: (typeof ground)['base']) => ({
    ...material,
    friction: material.friction * friction,
    rolling: material.rolling * rolling,
  });
  return {
    ...ground,
    base: vary(ground.base),
    patches: ground.patches.map((patch) => ({ ...patch, material: vary(patch.material) })),
  };
}

function varySensors(
  sensors: SensorDescription,
  by: NonNullable<PlantVariation['sensors']>,
): SensorDescription {
  const entries = Object.entries(sensors) as [keyof SensorDescription, SensorChannel][];
  return Object.fromEntries(
    entries.map(([name, channel]) => [name, { ...channel, ...by[name] }]),
  ) as SensorDescription;
}
