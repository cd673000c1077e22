import { fileURLToPath } from 'node:url';
import { bake } from '../../harness/setup/bake.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { State } from '../../lib/codes.ts';
import { type Constants, S } from '../../lib/constants.ts';
import { createEvidence } from '../../lib/evidence.ts';
import { createTraction } from '../../lib/traction.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWinding } from '../../lib/winding.ts';
import car from '../published/reference-car.json' with { type: 'json' };
import { readOut } from '../runs/scratch.ts';
import { changed, SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

/** A row of the run, and what the stage makes of it. */
export interface HallRow {
  /** Time, s. */
  t: number;
  drive: number[];
  current: number[];
  steer: number;
  /** Speed of each tyre and of the vehicle, mm/s. */
  wheel: number[];
  speed: number;
  /** By how much each wheel is faster than the vehicle is taken to be, mm/s. */
  excess: number[];
  found: number;
  /** Evidence over its threshold h, for each motor. */
  spin: number[];
  free: number[];
  jam: number[];
}

const RUN = fileURLToPath(new URL('../fixtures/runs/hall-floor.csv', import.meta.url));

/**
 * Feeds tests/fixtures/runs/hall-floor.csv to the stage: the commands are those of the run's own
 * controller. The constants are those of tests/published/reference-car.json, the words of the setup
 * are the defaults; nothing is made to fit the run.
 */
export async function hallFloor(): Promise<HallRow[]> {
  const constants = hallConstants();
  const { vehicle } = constants;
  const words = constants.setups[0]!;
  const windings = [createWinding(vehicle), createWinding(vehicle)];
  const traction = createTraction(vehicle, windings);
  traction.load(words);
  // The same parts once more, to look inside.
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const evidence = createEvidence(vehicle);
  evidence.load(words);
  const { rows } = await readOut(RUN);
  let before = rows[0]!;
  let last = [0, 0, 0, 0];
  return rows.map((row) => {
    const [time, , , , mv, left, right, , driveLeft, driveRight, steer] = row as number[];
    const dt = time! - before[0]! || 10;
    const current = [left!, right!, 0, 0];
    const goal = [driveLeft!, driveRight!, 0, 0];
    traction.run([...goal], last, mv!, current, [], steer!, State.DRIVING, dt, dt);
    motors.run(last, mv!, current, [], ground.speed);
    ground.run(motors, steer!, dt);
    evidence.run(motors, ground, last, dt);
    const over = (sums: number[], h: number) => [0, 1].map((m) => sums[m]! / (words[h]! / 100));
    const result = {
      t: time! / 1000,
      drive: last.slice(0, 2),
      current: current.slice(0, 2),
      steer: steer!,
      wheel: motors.wheel.slice(0, 2),
      speed: traction.speed,
      excess: [0, 1].map((m) => ground.along[m]! - ground.speed),
      found: traction.found,
      spin: over(evidence.spin, S.SPIN_H),
      free: over(evidence.free, S.FREE_H),
      jam: over(evidence.jam, S.JAM_H),
    };
    before = row as number[];
    last = goal;
    return result;
  });
}

/** The reference car with a setup as it comes. */
export function hallConstants(): Constants {
  return bake(referenceVehicle(), [setupOf({ name: 'as it comes', surface: 'hall' })]);
}

/** The reference car as a builder would write it down. */
function referenceVehicle() {
  const motor = car.motor_at_wheel;
  const volts = car.battery.open_circuit_V;
  const idle = motor.bearing_friction_Nm / motor.ke_V_s_per_rad;
  const shaft = (volts - idle * motor.resistance_ohm) / motor.ke_V_s_per_rad;
  const rotor = car.inertia_per_rear_wheel_with_motor_kg_m2 - car.inertia_per_front_wheel_kg_m2;
  return vehicleOf(
    changed(SAMPLES.hatch, {
      massKg: car.mass_kg,
      wheelbaseMm: 1000 * car.wheelbase_m,
      trackMm: 1000 * car.track_m,
      cgToFrontAxleMm: 1000 * car.cg_to_front_axle_m,
      cgHeightMm: 1000 * car.cg_height_m,
      yawInertiaKgM2: car.yaw_inertia_kg_m2,
      wheelRadiusMm: 1000 * car.wheel_radius_m,
      steeringLockDeg: car.steering_lock_deg,
      'motor.resistanceOhm': motor.resistance_ohm,
      'motor.nominalVoltageV': volts,
      'motor.noLoadSpeedRpm': (shaft * 60) / (2 * Math.PI),
      'motor.noLoadCurrentMa': 1000 * idle,
      'motor.gearRatio': 1,
      'motor.gearEfficiencyPercent': (100 * motor.kt_Nm_per_A) / motor.ke_V_s_per_rad,
      'motor.continuousCurrentMa': 1000,
      'motor.currentLimitMa': 0,
      'battery.openCircuitV': volts,
      'battery.internalResistanceOhm': car.battery.internal_resistance_ohm,
      'plant.motor.rotorInertiaGCm2': 1e7 * rotor,
      'plant.wheelInertiaGCm2': 1e7 * car.inertia_per_front_wheel_kg_m2,
    }),
  );
}
