import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { createEvidence } from '../../lib/evidence.ts';
import { MISSING, S, V } from '../../lib/index.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle, setups } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const TICK = 10;
const MV = 7400;

test('a wheel that stands while its motor turns has come off: lost, not held', () => {
  const words = vehicle.map((word, i) => (i === V.HAS_WHEEL_SPEED ? 1 : word));
  const motors = createBackEmf(words, createWindings(words));
  const ground = createVehicleSpeed(words);
  const evidence = createEvidence(words);
  evidence.load([...setups[0]!]);
  const degS = Math.round((1000 * 1500) / words[V.WHEEL_UM_DEG]!);
  const tick = (ma: number, wheels: number[]) => {
    const last = [500, 500, 0, 0];
    motors.run(last, MV, [ma, 2000, 0, 0], wheels, ground.speed);
    ground.run(motors, 0, TICK);
    evidence.run(motors, ground, last, TICK);
  };
  for (let i = 0; i < 100; i++) tick(2000, [degS, degS, 0, 0]);
  for (let i = 0; i < 30; i++) tick(vehicle[V.NO_LOAD_MA]!, [0, degS, 0, 0]);
  expect(evidence.jam[0]).toBe(0);
  expect(evidence.free[0]).toBeGreaterThan(setups[0]![S.FREE_H]! / 100);
});

test('two wheels that let go at once tell as much as both', () => {
  const grows = [1, 2].map((loose) => {
    const motors = createBackEmf(vehicle, createWindings(vehicle));
    const ground = createVehicleSpeed(vehicle);
    const evidence = createEvidence(vehicle);
    evidence.load([...setups[0]!]);
    for (const m of [0, 1]) {
      motors.told[m] = 1;
      motors.current[m] = 2000;
    }
    const fall = vehicle[V.MOTOR_MOHM]! / vehicle[V.EMF_UV]!;
    const noise = (2000 * 0.05 + vehicle[V.CURRENT_ERROR_MA]! / 2) * fall;
    const unlearnt = 2000 * fall * 2.2 * (vehicle[V.MODEL_ERROR]! / 1000);
    const room = unlearnt + ((vehicle[V.TOP_SPEED_MM_S]! / 100) * 4) / 3;
    ground.fit.strongest = 4000;
    // Two standard deviations for a wheel: fewer than a sample may tell.
    for (const m of [0, 1]) if (m < loose) ground.along[m] = room + 1.9 * noise;
    evidence.run(motors, ground, [500, 500, 0, 0], TICK);
    return evidence.spin[0]!;
  });
  const k = setups[0]![S.SPIN_K]! / 100;
  expect(grows[0]).toBeCloseTo(1.9 - k, 9);
  expect(grows[1]).toBeCloseTo(3.8 - k, 9);
});

/**
 * Sum of the left wheel's spin after half a second at 2 m/s with these currents, from rest.
 *
 * @param before current of each motor in the tick before, from rest
 */
function spinAt(currentMa: number, before = 0): number {
  const windings = createWindings(vehicle);
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const evidence = createEvidence(vehicle);
  evidence.load([...setups[0]!]);
  // V d = R i + K v: the command that goes with both.
  const drive = (windings.ohm(0) * currentMa + vehicle[V.EMF_UV]! * 2000) / MV;
  const last = [drive, drive, 0, 0];
  if (before > 0) {
    const stalled = (windings.ohm(0) * before) / MV;
    motors.run([stalled, stalled, 0, 0], MV, [before, before, 0, 0], [], 0);
    ground.run(motors, 0, TICK);
  }
  for (let i = 0; i < 50; i++) {
    motors.run(last, MV, [currentMa, currentMa, 0, 0], [], ground.speed);
    ground.run(motors, 0, TICK);
    // The estimate is kept away from the wheels, as an error of drag keeps it.
    ground.speed = 0;
    ground.slack = 0;
    evidence.run(motors, ground, last, TICK);
  }
  return evidence.spin[0]!;
}

test('a thrust of less than a tenth of the weight lets no wheel go, however fast it seems', () => {
  const tenth = (vehicle[V.MASS_G]! * 9.807 * 100) / vehicle[V.THRUST_MN_A]! / 2;
  expect(spinAt(tenth * 0.98)).toBe(0);
  expect(spinAt(tenth * 1.02)).toBeGreaterThan(5);
});

test('a floor lets no wheel go at much less than what it bore just before', () => {
  const tenth = (vehicle[V.MASS_G]! * 9.807 * 100) / vehicle[V.THRUST_MN_A]! / 2;
  const current = tenth * 2;
  expect(spinAt(current, current / 0.58)).toBe(0);
  expect(spinAt(current, current / 0.63)).toBeGreaterThan(5);
});

test('a wheel sensor that is lost leaves as much room for errors as one that is not fitted', () => {
  const fitted = vehicle.map((word, i) => (i === V.HAS_WHEEL_SPEED ? 1 : word));
  const [with_, without] = [fitted, [...vehicle]].map((words) => {
    const windings = createWindings(words);
    const motors = createBackEmf(words, windings);
    const ground = createVehicleSpeed(words);
    const evidence = createEvidence(words);
    evidence.load([...setups[0]!]);
    const sums: number[] = [];
    for (let i = 0; i < 60; i++) {
      const last = [10 * i, 10 * i, 0, 0];
      const ma = 1500 - 20 * i;
      motors.run(last, MV, [ma, ma, 0, 0], [MISSING, MISSING, 0, 0], ground.speed);
      ground.run(motors, 0, TICK);
      evidence.run(motors, ground, last, TICK);
      sums.push(evidence.spin[0]!);
    }
    return sums;
  });
  expect(with_).toEqual(without);
  expect(Math.max(...without!)).toBeGreaterThan(5);
});
