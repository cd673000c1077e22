import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import type { BackEmf } from '../../lib/back-emf.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const TICK = 10;

/** Slack after seconds of wheels that creep under a current too weak to move the vehicle. */
function slackOf(creep: number, currentMa: number, seconds: number): number {
  const ground = createVehicleSpeed([...vehicle]);
  const motors: BackEmf = {
    wheel: [creep, creep, 0, 0],
    told: [1, 1, 0, 0],
    current: [currentMa, currentMa, 0, 0],
    unsure: [0, 0, 0, 0],
    known: 2,
    run: () => {},
  };
  for (let t = 0; t < seconds * 1000; t += TICK) {
    ground.run(motors, 0, TICK);
    expect(Math.abs(ground.speed), `at ${t} ms`).toBeLessThan(10);
  }
  return ground.slack;
}

test('at rest the estimate is off by no more than a short push of what drags', () => {
  expect(slackOf(0, 50, 5)).toBe(slackOf(0, 50, 20));
});

test('while wheels creep at rest, it may be off by as much as they show, either way', () => {
  const creep = 140;
  expect(slackOf(creep, 50, 20)).toBeGreaterThan(slackOf(0, 50, 20));
  expect(slackOf(creep, 50, 20)).toBeLessThanOrEqual(creep);
  expect(slackOf(-creep, -50, 20)).toBe(slackOf(creep, 50, 20));
});
