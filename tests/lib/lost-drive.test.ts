import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { createBackEmf } from '../../lib/back-emf.ts';
import { Found } from '../../lib/codes.ts';
import { V } from '../../lib/index.ts';
import { createLostDrive, MOST } from '../../lib/lost-drive.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const IDLE = vehicle[V.NO_LOAD_MA]!;
const ERROR = vehicle[V.CURRENT_ERROR_MA]!;

/** What a start tells of its left motor, whose load the right one bears. */
function started(left: number, right: number, lost = 0): number {
  const motors = createBackEmf(vehicle, createWindings(vehicle));
  const ground = createVehicleSpeed(vehicle);
  const alone = createLostDrive(vehicle);
  motors.known = 2;
  alone.begin(motors, ground, [0, 0, 0, 0], 0, 10);
  motors.current[0] = left;
  motors.current[1] = right;
  motors.told[0] = 1;
  motors.told[1] = 1;
  alone.begin(motors, ground, [400, 400, 0, 0], right, 10);
  return alone.run(0, left, right, -5, true, lost);
}

test('a motor that still draws more than light load allows is not lost, whatever went over', () => {
  const light = (IDLE * 5) / 4 + ERROR + 2000 / 4;
  expect(started(light - 1, 2000)).toBe(MOST);
  expect(started(light + 1, 2000)).toBeLessThan(0);
});

test('beside one that is lost the other tells nothing', () => {
  expect(started(IDLE, 1000, Found.FREE << 1)).toBe(0);
  expect(started(IDLE, 1000, Found.FREE)).toBe(MOST);
});

test('one that runs ahead is told by what it draws less than a light load or the other', () => {
  const alone = createLostDrive(vehicle);
  const light = (IDLE * 5) / 4 + ERROR + 2000 / 4;
  expect(alone.run(0, light - 2 * ERROR, 2000, 9, true, 0)).toBeCloseTo(2, 9);
  expect(alone.run(0, 300, 300 + 3 * ERROR, 9, true, 0)).toBeCloseTo(2, 9);
  expect(alone.run(0, 0, 2000, 3, true, 0)).toBe(3);
  expect(alone.run(0, 0, 2000, 9, true, 0)).toBe(MOST);
  expect(alone.run(0, 0, 2000, 9, false, 0)).toBe(0);
});
