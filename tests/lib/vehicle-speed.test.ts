import { expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import type { BackEmf } from '../../lib/back-emf.ts';
import { V } from '../../lib/index.ts';
import { createVehicleSpeed } from '../../lib/vehicle-speed.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';

const { vehicle } = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const TICK = 10;

/** A BackEmf that says what a test wants. */
function motorsThat(says: Partial<BackEmf>): BackEmf {
  return {
    wheel: [0, 0, 0, 0],
    sensed: [0, 0, 0, 0],
    turns: [0, 0, 0, 0],
    told: [0, 0, 0, 0],
    current: [0, 0, 0, 0],
    unsure: [0, 0, 0, 0],
    known: 2,
    driven: 2,
    run: () => {},
    ...says,
  };
}

/** Slack after seconds of wheels that creep under a current too weak to move the vehicle. */
function slackOf(creep: number, currentMa: number, seconds: number): number {
  const ground = createVehicleSpeed([...vehicle]);
  const motors = motorsThat({
    wheel: [creep, creep, 0, 0],
    told: [1, 1, 0, 0],
    current: [currentMa, currentMa, 0, 0],
  });
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

/** Slack after a fifth of a second of hard braking from 2 m/s, the wheels locked. */
function slackBraked(steer: number, mirror = 1): number {
  const ground = createVehicleSpeed([...vehicle]);
  const says = motorsThat({ told: [1, 1, 0, 0], wheel: [2000 * mirror, 2000 * mirror, 0, 0] });
  for (let t = 0; t < 4000; t += TICK) ground.run(says, 0, TICK);
  expect(ground.speed * mirror).toBeGreaterThan(1700);
  const ma = -1500 * mirror;
  Object.assign(says, { current: [ma, ma, 0, 0], wheel: [0, 0, 0, 0] });
  for (let t = 0; t < 200; t += TICK) ground.run(says, steer, TICK);
  return ground.slack;
}

test('braked with the steering out it may slide sideways, and is off by far more', () => {
  expect(slackBraked(500) - slackBraked(100)).toBeGreaterThan(700);
  expect(slackBraked(-500)).toBe(slackBraked(500));
  expect(slackBraked(500, -1)).toBeCloseTo(slackBraked(500), 3);
});

/**
 * What the core makes of a start against a slope: speed after `driveS` of a force that in truth
 * just holds the vehicle, which stood in neutral or rolled back against the brake before.
 */
function heldOnSlope(rolls: boolean, driveS: number, mirror = 1): number {
  const ground = createVehicleSpeed([...vehicle]);
  const motors = motorsThat({ told: [1, 1, 0, 0], driven: 0 });
  const drive = (wheel: number, ma: number, driven: number, seconds: number) => {
    motors.driven = driven;
    for (let t = 0; t < seconds * 1000; t += TICK) {
      for (let m = 0; m < 2; m++) {
        motors.wheel[m] = wheel * mirror;
        motors.current[m] = ma * mirror;
      }
      ground.run(motors, 0, TICK);
    }
  };
  // A steady roll back at 400 mm/s against 1 A of braking: the slope pulls as hard as that.
  if (rolls) drive(-400, 1000, 0, 2);
  drive(0, 1000, 2, driveS);
  return ground.speed * mirror + 0;
}

test('a vehicle that rolled back against its brake has that much less to gain uphill', () => {
  const level = heldOnSlope(false, 0.5);
  const slope = heldOnSlope(true, 0.5);
  expect(level).toBeGreaterThan(100);
  expect(slope).toBeLessThan(level / 3);
  expect(heldOnSlope(true, 0.5, -1)).toBe(slope);
});

test.each([
  ['hatch', 0],
  ['forwarder', 0],
  ['forwarder', 3],
] as const)(
  '%s: no current tells a wheel, gears take %d times the mass: it rolls out',
  (name, by) => {
    const own = bake(vehicleOf(SAMPLES[name]), [setupOf({ name: 'a', surface: 'b' })]);
    const constants = [...own.vehicle];
    constants[V.ROTATING_G] = constants[V.ROTATING_G]! + by * constants[V.MASS_G]!;
    const ground = createVehicleSpeed(constants);
    const speed = constants[V.TOP_SPEED_MM_S]! * 0.6;
    const driven = motorsThat({ wheel: [speed, speed, 0, 0], told: [1, 1, 0, 0] });
    driven.current.fill(300, 0, 2);
    for (let i = 0; i < 300; i++) ground.run(driven, 0, TICK);
    const before = ground.speed;
    const coasts = motorsThat({ driven: 0 });
    for (let i = 0; i < 6000; i++) {
      ground.run(coasts, 0, TICK);
      expect(ground.speed, `tick ${i}`).toBeLessThanOrEqual(before);
      expect(ground.speed, `tick ${i}`).toBeGreaterThanOrEqual(0);
    }
    expect(before).toBeGreaterThan(speed / 2);
    expect(ground.speed).toBe(0);
  },
);

test('a slope is forgotten at rest, though a sensor reads a little', () => {
  const ground = createVehicleSpeed([...vehicle]);
  for (let i = 0; i < 150; i++) {
    const wheel = [20 * i, 20 * i, 0, 0];
    ground.run(
      motorsThat({ wheel, told: [1, 1, 0, 0], current: [-400, -400, 0, 0], driven: 0 }),
      0,
      TICK,
    );
  }
  for (let i = 0; i < 1500; i++) {
    ground.run(motorsThat({ current: [-1, -1, 0, 0], driven: 0 }), 0, TICK);
  }
  expect(ground.speed).toBe(0);
});

test('wheel sensors tell the speed where no current is sampled', () => {
  const ground = createVehicleSpeed([...vehicle]);
  const told = { wheel: [2000, 2000, 0, 0], told: [1, 1, 0, 0], sensed: [1, 1, 0, 0] };
  for (let i = 0; i < 300; i++) ground.run(motorsThat({ ...told, known: 0, driven: 0 }), 0, TICK);
  expect(ground.speed).toBeGreaterThan(1980);
});
