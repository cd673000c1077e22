import { describe, expect, test } from 'vitest';
import { createFrame } from '../../harness/plant/frame.ts';
import { longestStep } from '../../harness/plant/longest-step.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { CARS } from './cars.ts';
import { DRIVES, metricsOf } from './drives.ts';
import { referenceCar } from './reference-car.ts';

/** The step to simulate with, s. */
const STEP = 1e-3;
const BUDGET = 0.001;

describe('halving the step of 1 ms changes every metric by less than 0.1 %', () => {
  test.each(CARS)('$name', (car) => {
    const changes = DRIVES.map((drive) => {
      const [coarse, fine] = [STEP, STEP / 2].map((dt) => metricsOf(createPlant(car), drive, dt));
      const worst = Object.keys(fine!)
        .map((name) => {
          const scale = Math.max(Math.abs(fine![name]!), 1e-3);
          return { name, change: Math.abs(coarse![name]! - fine![name]!) / scale };
        })
        .reduce((a, b) => (b.change > a.change ? b : a));
      return { drive: drive.name, ...worst };
    });
    const lines = changes.map(
      ({ drive, name, change }) => `${drive}: ${(100 * change).toFixed(3)} % (${name})`,
    );
    console.info([`${car.name}, worst metric of each drive:`, ...lines].join('\n  '));
    for (const { change } of changes) expect(change).toBeLessThan(BUDGET);
  });
});

describe('where damped tyres hardly roll, a step eight times as short says the same', () => {
  test.each(CARS)('$name: slip at walking pace under power, within 0.06 % of slip', (car) => {
    const slips = [STEP, STEP / 8].map((dt) => {
      const plant = createPlant(car);
      const seen: number[] = [];
      for (let i = 1; i <= Math.round(0.3 / dt); i++) {
        const drive = 300 * Math.min(1, i * dt * 2);
        plant.step([drive, drive, drive, drive], 1, 0, dt);
        if (i * dt > 0.19 && i % Math.round(0.05 / dt) === 0)
          seen.push(plant.observe().slipRatio[0]!);
      }
      return seen;
    });
    const [coarse, fine] = slips as [number[], number[]];
    expect(fine.length).toBeGreaterThanOrEqual(3);
    for (const [i, slip] of fine.entries())
      expect(Math.abs(coarse[i]! - slip)).toBeLessThan(0.0006);
  });

  test('slip of the front wheels beside a jammed rear one, within 0.1 % of slip', () => {
    const [coarse, fine] = [STEP, STEP / 8].map((dt) => {
      const plant = createPlant(referenceCar('slippery'));
      plant.place({ x: 0, y: 0, yaw: 0, speed: 1 });
      plant.setFaults([{ kind: 'jammedWheel', wheel: 1 }]);
      const seen: number[] = [];
      for (let i = 1; i <= Math.round(0.2 / dt); i++) {
        plant.step([250, 250], 1, 0, dt);
        if (i % Math.round(0.02 / dt) === 0) seen.push(...plant.observe().slipRatio.slice(2));
      }
      return seen;
    });
    expect(Math.max(...fine!.map(Math.abs))).toBeGreaterThan(0.2);
    for (const [i, slip] of fine!.entries())
      expect(Math.abs(coarse![i]! - slip)).toBeLessThan(0.001);
  });
});

test.each(CARS)('$name: the step lies within what its stiffest mode allows', (car) => {
  expect(longestStep(createFrame(car, false)).step).toBeGreaterThan(STEP);
});
