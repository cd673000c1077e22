import { rearPair } from '../../harness/plant/driveline.ts';
import { evenGround } from '../../harness/plant/ground.ts';
import type { MotorDescription, PlantDescription } from '../../harness/plant/plant-description.ts';
import car from '../published/reference-car.json' with { type: 'json' };

/**
 * The reference car as it stands in tests/published/reference-car.json. What the file leaves open
 * is an assumption: half the roll moment on each axle, no drag, a heat capacity that keeps motors
 * cool, loads that follow within 20 ms, a rear motor that holds 3.5e-5 of the 6e-5 kg m² at its
 * wheel. kt < ke is the efficiency of the gear between motor and wheel.
 */
export function referenceCar(floor: 'slippery' | 'grippy'): PlantDescription {
  const motor = car.motor_at_wheel;
  return {
    name: 'reference car',
    gravity: 9.81,
    body: {
      mass: car.mass_kg,
      yawInertia: car.yaw_inertia_kg_m2,
      cgToFront: car.cg_to_front_axle_m,
      cgToRear: car.wheelbase_m - car.cg_to_front_axle_m,
      trackFront: car.track_m,
      trackRear: car.track_m,
      cgHeight: car.cg_height_m,
      rollShareFront: 0.5,
      loadLag: 0.02,
      dragArea: 0,
      airDensity: 1.2,
    },
    wheelRadius: four(car.wheel_radius_m),
    wheelInertia: four(car.inertia_per_front_wheel_kg_m2),
    steering: {
      lock: (car.steering_lock_deg * Math.PI) / 180,
      rate: car.steering_rate_rad_s,
      ackermann: 1,
    },
    driveline: { ...rearPair('averaged', 1), shaftInertia: 1e-6 },
    motors: [referenceMotor(), referenceMotor()],
    battery: {
      openCircuit: [car.battery.open_circuit_V],
      capacity: Infinity,
      charge: 1,
      resistance: car.battery.internal_resistance_ohm,
      slowResistance: 0,
      slowTime: 0,
    },
    tyres: {
      front: { friction: 1, stiffness: 1, loadSensitivity: 0 },
      rear: { friction: 1, stiffness: 1, loadSensitivity: 0 },
    },
    ground: evenGround({
      name: floor,
      friction: floor === 'slippery' ? car.slippery_floor.mu : car.grippy_floor.mu,
      rolling: car.rolling_resistance_coefficient,
      relaxationLength: car.tyre.relaxation_length_m,
      tyre: {
        kind: 'magicFormula',
        stiffnessB: car.tyre.B,
        shapeC: car.tyre.C,
        curvatureE: car.tyre.E,
      },
    }),
    skidFriction: 0.3,
    sensors: {},
  };

  function referenceMotor(): MotorDescription {
    const { inertia_per_rear_wheel_with_motor_kg_m2: both } = car;
    return {
      constant: motor.ke_V_s_per_rad,
      resistance: motor.resistance_ohm,
      inductance: 0,
      inertia: both - car.inertia_per_front_wheel_kg_m2,
      friction: motor.bearing_friction_Nm,
      gearEfficiency: motor.kt_Nm_per_A / motor.ke_V_s_per_rad,
      bridge: 'brake',
      heat: {
        winding: 1000,
        housing: 1000,
        windingToHousing: 1,
        housingToAmbient: 1,
        ambientC: 25,
        startC: 25,
        referenceC: 25,
        coefficient: 0,
      },
    };
  }
}

function four(value: number): number[] {
  return [value, value, value, value];
}
