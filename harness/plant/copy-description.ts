import type {
  AxleTyres,
  BodyDescription,
  MotorDescription,
  PlantDescription,
} from './plant-description.ts';

/**
 * A copy of a description whose records all have the same fields in the same order, however the
 * original was put together: an engine then reads every plant's constants by the same fast code,
 * and nobody can change them in a run.
 */
export function copyDescription(from: PlantDescription): PlantDescription {
  const { steering, battery, ground, driveline } = from;
  return {
    name: from.name,
    gravity: from.gravity,
    body: copyBody(from.body),
    wheelRadius: [...from.wheelRadius],
    wheelInertia: [...from.wheelInertia],
    steering: { lock: steering.lock, rate: steering.rate, ackermann: steering.ackermann },
    driveline: {
      motors: driveline.motors.map((row) => [...row]),
      constraints: driveline.constraints.map(({ name, row }) => ({ name, row: [...row] })),
      shaftInertia: driveline.shaftInertia,
    },
    motors: from.motors.map(copyMotor),
    battery: {
      openCircuit: [...battery.openCircuit],
      capacity: battery.capacity,
      charge: battery.charge,
      resistance: battery.resistance,
      slowResistance: battery.slowResistance,
      slowTime: battery.slowTime,
    },
    tyres: { front: copyTyres(from.tyres.front), rear: copyTyres(from.tyres.rear) },
    ground: {
      base: ground.base,
      patches: ground.patches.map(({ fromX, toX, fromY, toY, material }) => {
        return { fromX, toX, fromY, toY, material };
      }),
      gradient: ground.gradient,
      uphill: ground.uphill,
    },
    skidFriction: from.skidFriction,
    sensors: from.sensors,
  };
}

function copyBody(from: BodyDescription): BodyDescription {
  return {
    mass: from.mass,
    yawInertia: from.yawInertia,
    cgToFront: from.cgToFront,
    cgToRear: from.cgToRear,
    trackFront: from.trackFront,
    trackRear: from.trackRear,
    cgHeight: from.cgHeight,
    rollShareFront: from.rollShareFront,
    loadLag: from.loadLag,
    dragArea: from.dragArea,
    airDensity: from.airDensity,
  };
}

function copyMotor({ heat, ...from }: MotorDescription): MotorDescription {
  return {
    constant: from.constant,
    resistance: from.resistance,
    inductance: from.inductance,
    inertia: from.inertia,
    friction: from.friction,
    gearEfficiency: from.gearEfficiency,
    bridge: from.bridge,
    heat: {
      winding: heat.winding,
      housing: heat.housing,
      windingToHousing: heat.windingToHousing,
      housingToAmbient: heat.housingToAmbient,
      ambientC: heat.ambientC,
      startC: heat.startC,
      referenceC: heat.referenceC,
      coefficient: heat.coefficient,
    },
  };
}

function copyTyres(from: AxleTyres): AxleTyres {
  return {
    friction: from.friction,
    stiffness: from.stiffness,
    loadSensitivity: from.loadSensitivity,
  };
}
