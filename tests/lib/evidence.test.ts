import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { createEvidence } from '../../lib/evidence.ts';
import { V } from '../../lib/index.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle, setups } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const TICK = 10;
const MV = 7400;

/** Sum of the left wheel's spin after half a second at 2 m/s with these currents, from rest. */
function spinAt(currentMa: number): number {
  const windings = createWindings(vehicle);
  const motors = createBackEmf(vehicle, windings);
  const ground = createVehicleSpeed(vehicle);
  const evidence = createEvidence(vehicle);
  evidence.load([...setups[0]!]);
  // V d = R i + K v: the command that goes with both.
  const drive = (windings.ohm[0]! * currentMa + vehicle[V.EMF_UV]! * 2000) / MV;
  const last = [drive, drive, 0, 0];
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
