import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createPlant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { VX, VY, X, Y, YAW, YAW_RATE } from '../../harness/plant/state.ts';
import { CARS } from './cars.ts';
import { DRIVES, run } from './drives.ts';

/** A stretch of held commands: four drives and the steering, permille; on or off; steps. */
interface Stretch {
  drive: number[];
  steer: number;
  enable: number;
  steps: number;
}

const stretches: fc.Arbitrary<Stretch[]> = fc.array(
  fc.record({
    drive: fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 4, maxLength: 4 }),
    steer: fc.integer({ min: -1000, max: 1000 }),
    enable: fc.constantFrom(1, 1, 1, 0),
    steps: fc.integer({ min: 1, max: 300 }),
  }),
  { minLength: 1, maxLength: 5 },
);

function play(car: PlantDescription, parts: Stretch[], mirrored: boolean): Float64Array {
  const plant = createPlant(car);
  const swaps =
    car.motors.length === 4 ||
    car.name === 'pair' ||
    car.name === 'tracked' ||
    car.name === 'reference car';
  for (const { drive, steer, enable, steps } of parts) {
    const [a = 0, b = 0, c = 0, d = 0] = drive;
    const command = mirrored && swaps ? [b, a, d, c] : [a, b, c, d];
    for (let i = 0; i < steps; i++) plant.step(command, enable, mirrored ? -steer : steer, 1e-3);
  }
  return plant.state.body.slice();
}

describe('mirrored input gives exactly the mirrored path', () => {
  test.each(CARS)('$name', (car) => {
    fc.assert(
      fc.property(stretches, (parts) => {
        const path = play(car, parts, false);
        const image = play(car, parts, true);
        for (const i of [X, VX]) expect(image[i]! - path[i]!).toBe(0);
        for (const i of [Y, YAW, VY, YAW_RATE]) expect(image[i]! + path[i]!).toBe(0);
      }),
      { numRuns: 15 },
    );
  });
});

describe('the drive does not depend on', () => {
  const car = CARS[1]!;

  test('when it begins: a car left standing drives the same path to the last bit', () => {
    for (const drive of DRIVES) {
      const now = createPlant(car);
      const later = createPlant(car);
      for (let i = 0; i < 1000; i++) later.step([0, 0], 1, 0, 1e-3);
      expect([...later.state.body]).toEqual([0, 0, 0, 0, 0, 0]);
      run(now, drive, 1e-3);
      run(later, drive, 1e-3);
      expect(later.state.body).toEqual(now.state.body);
      expect(later.state.speeds).toEqual(now.state.speeds);
    }
  });

  test('where it begins and which way: the path is turned and shifted', () => {
    for (const drive of DRIVES) {
      const straight = createPlant(car);
      const turned = createPlant(car);
      const [yaw, x, y] = [2.1, 3, -4];
      turned.place({ x, y, yaw, speed: 0 });
      run(straight, drive, 1e-3);
      run(turned, drive, 1e-3);
      const [a, b] = [straight.state.body, turned.state.body];
      expect(b[X]! - x).toBeCloseTo(Math.cos(yaw) * a[X]! - Math.sin(yaw) * a[Y]!, 9);
      expect(b[Y]! - y).toBeCloseTo(Math.sin(yaw) * a[X]! + Math.cos(yaw) * a[Y]!, 9);
      expect(b[YAW]! - yaw).toBeCloseTo(a[YAW]!, 9);
    }
  });

  test('what happened since a snapshot: restored, it goes on to the last bit', () => {
    fc.assert(
      fc.property(stretches, stretches, (before, after) => {
        const plant = createPlant(
          { ...CARS[4]!, ground: patchy, sensors: { supply: noisy, gyro: noisy } },
          { seed: 7 },
        );
        const senses = { batteryMv: 0, yawRateMradS: 0, currentMa: [0, 0] };
        const go = (parts: Stretch[]) => {
          for (const { drive, steer, enable, steps } of parts) {
            for (let i = 0; i < steps; i++) plant.step(drive, enable, steer, 1e-3);
            plant.sense(senses);
          }
          return { state: [...plant.state.all], senses: structuredClone(senses) };
        };
        go(before);
        plant.setFaults([{ kind: 'slippedShaft', wheel: 0 }]);
        const kept = plant.snapshot();
        const first = go(after);
        plant.setFaults([]);
        go(before);
        plant.restore(kept);
        expect(go(after)).toEqual(first);
      }),
      { numRuns: 10 },
    );
  });
});

const soft = { ...CARS[4]!.ground.base, friction: 0.4, relaxationLength: 0.01 };
const edge = { fromX: 0, toX: 0.3, fromY: -Infinity, toY: 0.02, material: soft };
const patchy = { ...CARS[4]!.ground, patches: [edge] };
const noisy = { step: 5, noise: 20, offset: 3, delay: 0.013, dropout: 0.2 };
