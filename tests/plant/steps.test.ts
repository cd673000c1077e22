import { describe, expect, test } from 'vitest';
import { createFrame } from '../../harness/plant/frame.ts';
import { longestStep } from '../../harness/plant/longest-step.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { CARS } from './cars.ts';
import { DRIVES, metricsOf } from './drives.ts';

/** The step to simulate with, s. */
const STEP = 1e-3;
const BUDGET = 0.01;

describe('halving the step of 1 ms changes every metric by less than 1 %', () => {
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

test.each(CARS)('$name: the step lies within what its stiffest mode allows', (car) => {
  expect(longestStep(createFrame(car, false)).step).toBeGreaterThan(STEP);
});
