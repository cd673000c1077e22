import { radians } from '../setup/geometry.ts';
import { heatConstants } from '../setup/heat-constants.ts';
import { motorConstant, rotorInertia, wheelInertia } from '../setup/inertia.ts';
import type { Surface, Vehicle } from '../setup/records.ts';
import { type Driveline, fourMotors, rearPair, singleMotor, tracked } from './driveline.ts';
import { evenGround, type Material } from './ground.ts';
import type {
  BatteryDescription,
  BodyDescription,
  HeatDescription,
  MotorDescription,
  PlantDescription,
} from './plant-description.ts';
import type { SensorDescription } from './sensors.ts';

/** What no file says, in SI units; none of it was measured, ranges are what to plan for. */
const ASSUMED = {
  /** Standard acceleration of free fall, ISO 80000-3. */
  gravity: 9.80665,
  /** Density of air at 20 °C and 1013 hPa. */
  airDensity: 1.204,
  /** Wheel loads follow accelerations within this time; 0.01 to 0.05 for stiff springs. */
  loadLag: 0.02,
  /** Share of a wheel's moment of inertia that stays on a shaft that slipped out of it. */
  shaftShare: 1 / 25,
  /** Friction of a corner of the chassis that drags; 0.2 to 0.5. */
  skidFriction: 0.3,
  /** Drag coefficient times frontal area over track times c.g. height; 1 to 3. */
  dragShare: 1.75,
  /** Rise of copper's resistance per kelvin at 20 °C, 1/K; common handbook value. */
  copper: 0.00393,
  /** Temperature at which a cold resistance was measured, °C. */
  coldC: 20,
} as const;

/**
 * A checked vehicle on a surface as a plant, in SI units. What the files leave open is estimated;
 * see the fields of `plant` in vehicle.ts.
 */
export function describePlant(vehicle: Vehicle, surface: Surface): PlantDescription {
  const { plant } = vehicle;
  const radius = vehicle.wheelRadiusMm / 1000;
  const inertia = wheelInertia(vehicle);
  const driveline = drivelineOf(vehicle);
  const { frontFrictionPercent, rearFrictionPercent, loadSensitivityPercent } = plant.tyres;
  const axle = (friction: number, stiffness: number) => ({
    friction: friction / 100,
    stiffness: stiffness / 100,
    loadSensitivity: loadSensitivityPercent / 100,
  });
  return {
    name: vehicle.name,
    gravity: ASSUMED.gravity,
    body: bodyOf(vehicle),
    wheelRadius: [radius, radius, radius, radius],
    wheelInertia: [inertia, inertia, inertia, inertia],
    steering: {
      // Tracks and skid-steered sides have nothing to steer by but their speeds.
      lock: vehicle.layout === 'tracked' ? 0 : radians(vehicle.steeringLockDeg),
      rate: radians(plant.steeringRateDegPerS),
      ackermann: plant.ackermannPercent / 100,
    },
    driveline: { ...driveline, shaftInertia: ASSUMED.shaftShare * inertia },
    motors: driveline.motors.map(() => motorOf(vehicle)),
    battery: batteryOf(vehicle),
    tyres: {
      front: axle(frontFrictionPercent, plant.tyres.frontStiffnessPercent),
      rear: axle(rearFrictionPercent, plant.tyres.rearStiffnessPercent),
    },
    ground: evenGround(describeSurface(surface)),
    skidFriction: ASSUMED.skidFriction,
    sensors: sensorsOf(vehicle),
  };
}

/** A checked surface as the tyres feel it, for patches and split friction. */
export function describeSurface(surface: Surface): Material {
  return {
    name: surface.name,
    friction: surface.friction,
    rolling: surface.rollingResistance,
    relaxationLength: surface.relaxationLengthMm / 1000,
    tyre: { kind: 'magicFormula', ...surface.tyre },
  };
}

function bodyOf(vehicle: Vehicle): BodyDescription {
  const { plant } = vehicle;
  const cgToFront = vehicle.cgToFrontAxleMm / 1000;
  const track = vehicle.trackMm / 1000;
  const cgHeight = vehicle.cgHeightMm / 1000;
  return {
    mass: vehicle.massKg,
    yawInertia: vehicle.yawInertiaKgM2,
    cgToFront,
    cgToRear: vehicle.wheelbaseMm / 1000 - cgToFront,
    trackFront: plant.frontTrackMm > 0 ? plant.frontTrackMm / 1000 : track,
    trackRear: track,
    cgHeight,
    rollShareFront: plant.rollShareFrontPercent / 100,
    loadLag: ASSUMED.loadLag,
    dragArea:
      plant.dragAreaCm2 > 0 ? plant.dragAreaCm2 / 1e4 : ASSUMED.dragShare * track * cgHeight,
    airDensity: ASSUMED.airDensity,
  };
}

function drivelineOf({ layout, frontDrive, motor, plant }: Vehicle) {
  const ratio = motor.gearRatio;
  if (layout === 'single') return singleMotor(plant.drivenAxle, plant.differential, ratio);
  if (layout === 'twoPairs') return fourMotors(ratio);
  if (layout === 'tracked') return tracked(ratio);
  const pair = rearPair(frontDrive, ratio);
  if (plant.drivenAxle !== 'front') return pair;
  const motors = pair.motors.map(([left = 0, right = 0]) => [0, 0, left, right]);
  return { ...pair, motors } satisfies Omit<Driveline, 'shaftInertia'>;
}

function motorOf(vehicle: Vehicle): MotorDescription {
  const { motor, plant } = vehicle;
  const constant = motorConstant(vehicle);
  return {
    constant,
    resistance: motor.resistanceOhm,
    inductance: plant.motor.inductanceUh / 1e6,
    inertia: rotorInertia(vehicle),
    friction: (constant * motor.noLoadCurrentMa) / 1000,
    gearEfficiency: motor.gearEfficiencyPercent / 100,
    bridge: plant.motor.bridge,
    heat: heatOf(vehicle),
  };
}

/** A body too large to warm up, J/K. */
const ENDLESS = 1e6;

/** The heat model of the vehicle file; of one body the housing stays at ambient temperature. */
function heatOf({ motor }: Vehicle): HeatDescription {
  const { winding, windingOut, housing, housingOut } = heatConstants(motor);
  return {
    winding: winding === 0 ? ENDLESS : winding / 1000,
    housing: housing === 0 ? ENDLESS : housing / 1000,
    windingToHousing: windingOut / 1000,
    housingToAmbient: housingOut / 1000,
    ambientC: motor.ambientC,
    startC: motor.ambientC,
    referenceC: ASSUMED.coldC,
    coefficient: ASSUMED.copper,
  };
}

/**
 * Open-circuit voltage over that of the full pack, at equally spaced charges from empty to full;
 * common practice, no source.
 */
const CURVES = {
  constant: [1],
  lithium: [0.76, 0.86, 0.885, 0.895, 0.905, 0.915, 0.93, 0.945, 0.96, 0.98, 1],
  nickel: [0.7, 0.83, 0.86, 0.875, 0.885, 0.89, 0.9, 0.905, 0.915, 0.94, 1],
} as const;

function batteryOf({ battery, plant }: Vehicle): BatteryDescription {
  const { chemistry, capacityMah, slowResistanceOhm, slowTimeS } = plant.battery;
  return {
    openCircuit: CURVES[chemistry].map((share) => share * battery.openCircuitV),
    capacity: capacityMah === 0 ? Infinity : capacityMah * 3.6,
    charge: 1,
    resistance: battery.internalResistanceOhm,
    slowResistance: slowResistanceOhm,
    slowTime: slowResistanceOhm === 0 ? 0 : slowTimeS,
  };
}

function sensorsOf({ sensors, plant }: Vehicle): SensorDescription {
  const { drivenAxle, sensors: errors } = plant;
  const channel = (step: number, noise: number, offset: number) => ({
    step,
    noise,
    offset,
    delay: errors.delayMs / 1000,
    dropout: errors.dropoutPercent / 100,
  });
  const { currentStepMa, currentNoiseMa, currentOffsetMa } = errors;
  const { gyroStepMradPerS, gyroNoiseMradPerS, gyroOffsetMradPerS } = errors;
  return {
    ...(sensors.supply && { supply: channel(errors.supplyStepMv, errors.supplyNoiseMv, 0) }),
    ...(sensors.gyro && { gyro: channel(gyroStepMradPerS, gyroNoiseMradPerS, gyroOffsetMradPerS) }),
    ...(sensors.wheelSpeed && {
      wheelSpeed: channel(errors.wheelStepDegPerS, errors.wheelNoiseDegPerS, 0),
      ...(drivenAxle === 'front' && { wheelOfMotor: [2, 3, 0, 1] }),
    }),
    ...(sensors.current && { current: channel(currentStepMa, currentNoiseMa, currentOffsetMa) }),
  };
}
