import { join } from 'node:path';
import * as v from 'valibot';
import { demoGarage } from '../../harness/demo/create-garage.ts';
import type { Manoeuvre, Sticks } from '../../harness/manoeuvres/manoeuvre.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { bake } from '../../harness/setup/bake.ts';
import type { LoadedSetup } from '../../harness/setup/records.ts';
import { setupSchema } from '../../harness/setup/setup-schema.ts';
import { vehicleSchema } from '../../harness/setup/vehicle-schema.ts';
import { describeCar } from '../../harness/simulate/describe-car.ts';
import type { SimulationOptions } from '../../harness/simulate/simulate.ts';
import type { Constants } from '../../lib/index.ts';
import { referenceCar } from '../plant/reference-car.ts';
import car from '../published/reference-car.json' with { type: 'json' };

/** A garage of the demo club. */
export const HATCH = demoGarage('hatch');
export const TRACKED = join(HATCH, '../forwarder');

/** A manoeuvre of the given sticks. */
export function scripted(
  durationS: number,
  move: (t: number, sticks: Sticks) => void,
  more: Partial<Manoeuvre> = {},
): Manoeuvre {
  return {
    name: 'scripted',
    title: 'Scripted',
    source: 'this test',
    meaning: 'Whatever the test asks.',
    headline: ['distance'],
    kind: 'bend',
    durationS: () => durationS,
    createDriver: () => ({
      drive: ({ t }, sticks) => {
        sticks.throttle = 0;
        sticks.steer = 0;
        sticks.linkUp = true;
        move(t, sticks);
      },
    }),
    ...more,
  };
}

/** The manoeuvre of tests/published/reference-car.json, until the car has settled. */
export const FROM_REST = scripted(6, (t, sticks) => {
  sticks.steer = 1;
  sticks.throttle = Math.min(t, 1);
});

/** The reference car's core, with nothing between stick and motor but the inside cut, 0 to 1. */
export function referenceConstants(cut: number): Constants {
  const { motor_at_wheel: motor, battery } = car;
  const idle = motor.bearing_friction_Nm / motor.ke_V_s_per_rad;
  const speed = (battery.open_circuit_V - idle * motor.resistance_ohm) / motor.ke_V_s_per_rad;
  const vehicle = v.parse(vehicleSchema, {
    name: 'reference',
    scale: 16,
    layout: 'pair',
    frontDrive: 'averaged',
    massKg: car.mass_kg,
    wheelbaseMm: 1000 * car.wheelbase_m,
    trackMm: 1000 * car.track_m,
    cgToFrontAxleMm: 1000 * car.cg_to_front_axle_m,
    cgHeightMm: 1000 * car.cg_height_m,
    yawInertiaKgM2: car.yaw_inertia_kg_m2,
    wheelRadiusMm: 1000 * car.wheel_radius_m,
    steeringLockDeg: car.steering_lock_deg,
    motor: {
      resistanceOhm: motor.resistance_ohm,
      nominalVoltageV: battery.open_circuit_V,
      noLoadSpeedRpm: (speed * 60) / (2 * Math.PI),
      noLoadCurrentMa: 1000 * idle,
      gearRatio: 1,
      continuousCurrentMa: 1000,
      heat: { kind: 'none' },
    },
    battery: {
      openCircuitV: battery.open_circuit_V,
      internalResistanceOhm: battery.internal_resistance_ohm,
    },
    limits: { riseCeilingPercentPerS: 5000 },
  });
  return bake({ ...vehicle, file: 'reference vehicle' }, [plainSetup(cut)]);
}

function plainSetup(cut: number): LoadedSetup {
  const setup = v.parse(setupSchema, {
    name: 'plain',
    surface: 'any',
    throttle: { deadBandPercent: 1, expoPercent: 0, smoothingMs: 0 },
    steering: { deadBandPercent: 0, expoPercent: 0, ratePercentPerS: 10000 },
    split: { geometrySharePercent: 0, cutAtFullLockPercent: 100 * cut, cutCeilingPercent: 100 },
    slew: { risePercentPerS: 5000, fallPercentPerS: 5000, stopPercentPerS: 5000 },
  });
  return { ...setup, file: 'plain setup' };
}

/** The reference car on a floor, with the core in the loop. */
export function referenceDrive(
  floor: 'slippery' | 'grippy',
  cut: number,
  more: Partial<SimulationOptions> = {},
): SimulationOptions {
  const plant: PlantDescription = more.plant ?? referenceCar(floor);
  return {
    plant,
    car: describeCar(plant, 'pair'),
    constants: referenceConstants(cut),
    manoeuvre: FROM_REST,
    ...more,
  };
}
