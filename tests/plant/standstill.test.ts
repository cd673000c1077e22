import { describe, expect, test } from 'vitest';
import { hill } from '../../harness/plant/ground.ts';
import { createPlant, type Plant } from '../../harness/plant/plant.ts';
import { VX, VY, X, Y, YAW, YAW_RATE } from '../../harness/plant/state.ts';
import { CARS } from './cars.ts';
import { referenceCar } from './reference-car.ts';

const STEP = 1e-3;

function hold(plant: Plant, seconds: number, drive: number[], steer = 0, enable = 1): void {
  for (let i = 0; i < seconds / STEP; i++) plant.step(drive, enable, steer, STEP);
}

function speedOf({ state: { body } }: Plant): number {
  return Math.hypot(body[VX]!, body[VY]!) + 0.1 * Math.abs(body[YAW_RATE]!);
}

/** Stands still, and goes on standing at the same place to a thousandth of a millimetre. */
function expectRest(plant: Plant, steer = 0): void {
  expect(speedOf(plant)).toBeLessThan(1e-4);
  const before = plant.state.body.slice();
  let most = 0;
  for (let i = 0; i < 2 / STEP; i++) {
    plant.step([0, 0, 0, 0], 1, steer, STEP);
    most = Math.max(most, speedOf(plant));
  }
  expect(most).toBeLessThan(1e-4);
  for (const i of [X, Y, YAW]) expect(plant.state.body[i]! - before[i]!).toBeCloseTo(0, 6);
  expect(speedOf(plant)).toBeLessThan(1e-12);
}

test.each(CARS)('$name: nothing moves without a command, to the last bit', (car) => {
  const plant = createPlant(car);
  hold(plant, 2, [0, 0, 0, 0], 500);
  for (const i of [X, Y, YAW, VX, VY, YAW_RATE]) expect(plant.state.body[i]).toBe(0);
});

describe('a stop is clean: no creeping, no swaying', () => {
  test.each(CARS)('$name: braked to rest from a bend', (car) => {
    const plant = createPlant(car);
    hold(plant, 1.5, [500, 600, 500, 600], 500);
    expect(speedOf(plant)).toBeGreaterThan(1);
    hold(plant, 3, [0, 0, 0, 0], 500);
    expectRest(plant, 500);
  });

  test.each(CARS)('$name: coasting to rest', (car) => {
    const plant = createPlant(car);
    hold(plant, 0.5, [150, 150, 150, 150]);
    hold(plant, 6, [0, 0, 0, 0], 0, 0);
    expectRest(plant);
  });

  test('a skid with all wheels jammed swings back once, by less than tyres were deflected', () => {
    const plant = createPlant(referenceCar('grippy'));
    plant.place({ x: 0, y: 0, yaw: 0, speed: 2 });
    plant.setFaults([0, 1, 2, 3].map((wheel) => ({ kind: 'jammedWheel', wheel })));
    let furthest = 0;
    let reversals = 0;
    let sign = 1;
    for (let i = 0; i < 2 / STEP; i++) {
      plant.step([0, 0], 1, 0, STEP);
      furthest = Math.max(furthest, plant.state.body[X]!);
      const v = plant.state.body[VX]!;
      if (Math.abs(v) > 1e-3 && Math.sign(v) !== sign) {
        reversals++;
        sign = Math.sign(v);
      }
    }
    // Kinetic friction of a locked wheel: v^2 / (2 mu g), the curve's tail being 0.9 mu.
    expect(furthest).toBeGreaterThan(4 / (2 * 0.9 * 9.81));
    expect(furthest).toBeLessThan(4 / (2 * 0.8 * 9.81));
    expect(reversals).toBeLessThanOrEqual(2);
    expect(furthest - plant.state.body[X]!).toBeLessThan(0.02);
    expectRest(plant);
  });

  test('a slide to the side', () => {
    const plant = createPlant(referenceCar('slippery'));
    plant.state.body[VY] = 1.5;
    plant.restore(plant.snapshot());
    hold(plant, 2, [0, 0]);
    expectRest(plant);
  });

  test('wheels that spun on the spot and were cut off', () => {
    const plant = createPlant(referenceCar('slippery'));
    hold(plant, 0.15, [1000, 1000]);
    hold(plant, 3, [0, 0]);
    expectRest(plant);
  });
});

describe('on a hill', () => {
  const onHill = (gradient: number) => {
    const car = referenceCar('grippy');
    return createPlant({ ...car, ground: hill(car.ground, gradient) });
  };

  test('friction of wheels and motors holds what it can, without creeping', () => {
    const plant = onHill(0.02);
    hold(plant, 3, [0, 0]);
    expectRest(plant);
    expect(plant.state.body[X]!).toBeCloseTo(0, 3);
  });

  test('beyond that the car rolls down as its shorted motors let it: k^2 w / R', () => {
    const plant = onHill(0.1);
    hold(plant, 6, [0, 0]);
    const { description } = plant;
    const [motor] = description.motors;
    const r = description.wheelRadius[0]!;
    const pull = 1.1 * 9.81 * Math.sin(0.1);
    const rolling = 0.02 * 1.1 * 9.81 * Math.cos(0.1);
    const friction = (2 * motor!.friction) / r;
    const brake = (2 * motor!.constant ** 2) / motor!.resistance / motor!.gearEfficiency / r;
    expect(plant.state.speeds[0]! * -brake).toBeCloseTo(pull - rolling - friction, 3);
  });

  test('the slope that tyres just hold with locked wheels is mu', () => {
    for (const [tangent, holds] of [
      [0.85, true],
      [0.95, false],
    ] as const) {
      const plant = onHill(Math.atan(tangent));
      plant.setFaults([0, 1, 2, 3].map((wheel) => ({ kind: 'jammedWheel', wheel })));
      hold(plant, 3, [0, 0]);
      expect(plant.state.body[X]! > -0.05).toBe(holds);
    }
  });
});

test.each(CARS)('$name: reverse is as steady as forward', (car) => {
  const plant = createPlant(car);
  hold(plant, 3, [-400, -400, -400, -400]);
  const { body } = plant.state;
  expect(body[VX]).toBeLessThan(-0.5);
  expect(body[VY]).toBe(0);
  expect(body[YAW_RATE]).toBe(0);
  const forward = createPlant(car);
  hold(forward, 3, [400, 400, 400, 400]);
  expect(-body[VX]! / forward.state.body[VX]!).toBeCloseTo(1, 2);
});
