import { describe, expect, test } from 'vitest';
import { hill } from '../../harness/plant/ground.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { CARS } from './cars.ts';
import { DRIVES, run } from './drives.ts';

const BUDGET = 0.005;

describe.each(CARS)('$name', (car) => {
  test.each(DRIVES)('supplied = kinetic + losses within 0.5 %: $name', (drive) => {
    const plant = createPlant(car);
    run(plant, drive, 1e-3);
    const energies = plant.energies();
    expect(energies.supplied).toBeGreaterThan(1);
    expect(Math.abs(energies.residual)).toBeLessThan(BUDGET * energies.supplied);
    const { battery, winding, gear, friction, rolling, tyre, drag } = energies;
    for (const loss of [battery, winding, gear, friction, rolling, tyre, drag])
      expect(loss).toBeGreaterThanOrEqual(0);
  });
});

test.each([
  ['a bridge that coasts', { bridge: 'coast' as const }],
  ['an inductance', { inductance: 2e-4 }],
])('with %s', (_, change) => {
  const [car] = CARS;
  for (const drive of DRIVES) {
    const plant = createPlant({
      ...car!,
      motors: car!.motors.map((motor) => ({ ...motor, ...change })),
    });
    run(plant, drive, 1e-3);
    const { supplied, residual } = plant.energies();
    expect(Math.abs(residual)).toBeLessThan(BUDGET * supplied);
  }
});

test('up a hill the climb is paid for', () => {
  const car = { ...CARS[1]!, ground: hill(CARS[1]!.ground, 0.15, 0.4) };
  const plant = createPlant(car);
  plant.place({ x: 1, y: 2, yaw: 0.4, speed: 1 });
  run(plant, DRIVES[0]!, 1e-3);
  const { supplied, residual, potential } = plant.energies();
  expect(potential).toBeGreaterThan(5);
  expect(Math.abs(residual)).toBeLessThan(BUDGET * supplied);
});

test('a slipping shaft and a wheel that jams in mid-run cost energy; the books still close', () => {
  for (const fault of [
    { kind: 'jammedWheel' as const, wheel: 0 },
    { kind: 'slippedShaft' as const, wheel: 1 },
    { kind: 'lostDrive' as const, constraint: 'frontDrive' },
    { kind: 'lostWheel' as const, wheel: 3 },
  ]) {
    const plant = createPlant(CARS[1]!);
    run(plant, { ...DRIVES[4]!, fault: { at: 1.5, faults: [fault] } }, 1e-3);
    const { supplied, residual, shock } = plant.energies();
    expect(shock).toBeGreaterThanOrEqual(-1e-9);
    if (fault.kind === 'jammedWheel') expect(shock).toBeGreaterThan(0.1);
    expect(Math.abs(residual)).toBeLessThan(BUDGET * supplied);
  }
});
