import { describe, expect, test } from 'vitest';
import { createPlant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { VX, X, Y, YAW, YAW_RATE } from '../../harness/plant/state.ts';
import { CARS } from './cars.ts';

const STEP = 1e-3;

/** Holds commands from rest; gives the plant. */
function driven(car: PlantDescription, drive: number[], steer: number, seconds: number) {
  const plant = createPlant(car);
  for (let i = 0; i < seconds / STEP; i++) plant.step(drive, 1, steer, STEP);
  return plant;
}

describe.each(CARS)('$name', (car) => {
  test('runs straight, every wheel that has a motor driven', () => {
    const plant = driven(car, [500, 500, 500, 500], 0, 1.5);
    expect(plant.state.body[VX]).toBeGreaterThan(0.5);
    expect(plant.state.body[Y]).toBe(0);
    const { slipRatio } = plant.observe();
    const driving = [0, 1, 2, 3].filter((i) => car.driveline.motors.some((row) => row[i] !== 0));
    for (const i of driving) expect(slipRatio[i]).toBeGreaterThan(0);
  });

  test('goes round the turn’s centre at walking pace', () => {
    const { lock } = car.steering;
    // Twin motors as a free differential would have them; tracks by their own speeds.
    const cut = 0.12;
    const plant = driven(car, [200 * (1 - cut), 200, 200 * (1 - cut), 200], 500, 4);
    const radius = plant.state.body[VX]! / plant.state.body[YAW_RATE]!;
    const geometric = 0.17 / Math.tan(lock / 2);
    const isLocked = car.driveline.constraints.some(({ name }) => name === 'rearAxle');
    if (lock === 0) expect(radius).toBeGreaterThan(0.3);
    // Wheels that must turn alike push a car straight on.
    else if (isLocked) expect(radius).toBeGreaterThan(1.3 * geometric);
    else expect(Math.abs(radius / geometric - 1)).toBeLessThan(0.02);
  });
});

test('tracks against each other turn the vehicle on the spot', () => {
  const car = CARS.find(({ name }) => name === 'tracked')!;
  const plant = driven(car, [-700, 700], 0, 2);
  const { body } = plant.state;
  expect(body[YAW]).toBeGreaterThan(3);
  expect(Math.hypot(body[X]!, body[Y]!)).toBeLessThan(0.06);
});
