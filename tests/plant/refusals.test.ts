import { describe, expect, test } from 'vitest';
import { advance } from '../../harness/plant/advance.ts';
import { checkRun } from '../../harness/plant/check-run.ts';
import { createFrame } from '../../harness/plant/frame.ts';
import { longestStep } from '../../harness/plant/longest-step.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import type { PlantDescription } from '../../harness/plant/plant-description.ts';
import { VX } from '../../harness/plant/state.ts';
import { UserError } from '../../harness/problems.ts';
import { changed } from '../setup/samples.ts';
import { CARS } from './cars.ts';
import { referenceCar } from './reference-car.ts';

const car = referenceCar('grippy');

function problemsOf(description: PlantDescription): string[] {
  try {
    createPlant(description);
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return String(error instanceof Error && error.message).split('\n');
  }
  return [];
}

const motors = car.driveline.motors;
const constraint = (name: string, row: number[]) => ({ name, row });

describe('an impossible vehicle is refused with field, reason and range', () => {
  test.each<[string, Record<string, unknown>, string]>([
    [
      'negative mass',
      { 'body.mass': -1 },
      'reference car: body.mass: found -1, expected more than 0 and at most 1000: a mass in kg.',
    ],
    [
      'centre of gravity in front of the front axle',
      { 'body.cgToFront': -0.01 },
      'reference car: body.cgToFront: found -0.01, expected more than 0 and at most 10: the ' +
        'centre of gravity lies between the axles.',
    ],
    [
      'centre of gravity behind the rear axle',
      { 'body.cgToRear': 0 },
      'reference car: body.cgToRear: found 0, expected more than 0 and at most 10: the centre of ' +
        'gravity lies between the axles.',
    ],
    [
      'not a number',
      { 'body.yawInertia': Number.NaN },
      'reference car: body.yawInertia: expected a number.',
    ],
    [
      'gear ratio 0',
      { 'driveline.motors': [motors[0], [0, 0, 0, 0]] },
      'reference car: driveline.motors[1]: found a gear ratio of 0 to every wheel, expected one ' +
        'that is not 0. Say how often the motor turns for one turn of the wheel.',
    ],
    [
      'a motor too few',
      { motors: [car.motors[0]] },
      'reference car: motors: found 1, expected one for each of 2 rows of driveline.motors. ' +
        'Describe each motor once.',
    ],
    [
      'a wheel too few',
      { wheelRadius: [0.03, 0.03, 0.03] },
      'reference car: wheelRadius: expected one for each of four wheels.',
    ],
    [
      'axles that could only turn at different speeds',
      { 'driveline.constraints': [constraint('frontDrive', [1, 1, -1.2, -1.2])] },
      'reference car: driveline.constraints frontDrive: over-constrains the wheels: they could ' +
        'not all roll straight ahead. Expected entries over wheel radii that add up to 0.',
    ],
    [
      'the same shaft locked twice',
      {
        'driveline.constraints': [
          constraint('rearAxle', [1, -1, 0, 0]),
          constraint('again', [-2, 2, 0, 0]),
        ],
      },
      'reference car: driveline.constraints again: over-constrains the wheels: it follows from ' +
        'the constraints before it. Leave it out.',
    ],
    [
      'a motor against a locked axle',
      {
        'driveline.constraints': [constraint('rearAxle', [1, -1, 0, 0])],
        'driveline.motors': [motors[0], [1, -1, 0, 0]],
      },
      'reference car: driveline: over-constrains the wheels: motor 1 cannot turn. ' +
        'Remove a constraint.',
    ],
    [
      'a turn about the inner front wheel',
      { 'steering.lock': 1.3 },
      'reference car: steering.lock: found 1.3 rad, a turn whose centre lies at the inner front ' +
        'wheel. Lower it: it is the mean angle of both front wheels at full lock.',
    ],
    [
      'a wheel of no weight on a stiff tyre',
      {
        wheelInertia: [2.5e-5, 2.5e-5, 1e-10, 2.5e-5],
        'driveline.shaftInertia': 1e-11,
        'driveline.constraints': [],
      },
      'reference car: wheelInertia[2]: needs steps shorter than 0.00908 ms, expected at least ' +
        '0.02 ms. Raise it, or lower the tyre’s stiffness; real parts are not that light.',
    ],
    [
      'a rotor of no weight in a strong motor',
      {
        wheelInertia: [1e-8, 1e-8, 2.5e-5, 2.5e-5],
        'driveline.shaftInertia': 1e-9,
        'driveline.constraints': [],
        motors: car.motors.map((motor) => ({ ...motor, inertia: 0, resistance: 0.01 })),
        'ground.base.tyre.stiffnessB': 0.01,
      },
      'reference car: motors[0].inertia: needs steps shorter than 0.0000199 ms, expected at ' +
        'least 0.02 ms. Raise it, or the motor’s resistance; real parts are not that light.',
    ],
  ])('%s', (_, changes, message) => {
    expect(problemsOf(changed(car, changes))).toEqual([message]);
  });

  test('all fields that are out of range are named at once', () => {
    const found = problemsOf(changed(car, { 'body.mass': 0, 'battery.charge': 2, gravity: 99 }));
    expect(found.map((line) => line.split(':')[1]?.trim()).sort()).toEqual([
      'battery.charge',
      'body.mass',
      'gravity',
    ]);
  });

  test.each(CARS)('$name is accepted', (each) => {
    expect(problemsOf(each)).toEqual([]);
  });
});

describe('a run that diverges is reported with time, state and likely cause', () => {
  test('a step far too long', () => {
    const frame = createFrame(car, true);
    const { step, field } = longestStep(frame);
    frame.state.winding.fill(25);
    frame.state.battery[0] = 1;
    const dt = 30 * step;
    let report = checkRun(frame);
    expect(report).toBeUndefined();
    for (let i = 0; i < 5000 && report === undefined; i++) {
      advance(frame, [1000, 900], 1, 500, dt);
      report = checkRun(frame);
    }
    expect(report?.time).toBe(frame.state.time[0]);
    expect(report?.found).toMatch(/speed \S+ m\/s, yaw rate \S+ rad\/s at x \S+ m, y \S+ m/);
    expect(report?.cause).toContain(field);
    expect(report?.cause).toMatch(/The step of \S+ ms is longer than the \S+ ms that/);
  });

  test('a burnt motor', () => {
    const heat = { ...car.motors[0]!.heat, winding: 0.001, windingToHousing: 1e-6 };
    const plant = createPlant({ ...car, motors: car.motors.map((motor) => ({ ...motor, heat })) });
    plant.setFaults([{ kind: 'jammedWheel', wheel: 0 }]);
    for (let i = 0; i < 500; i++) plant.step([1000, 0], 1, 0, 1e-3);
    expect(plant.check()?.found).toMatch(/winding of the left motor at \d+ °C/);
  });

  test('a car that tips over', () => {
    const tall = { ...car, body: { ...car.body, cgHeight: 0.2 } };
    const plant = createPlant(tall);
    plant.place({ x: 0, y: 0, yaw: 0, speed: 4 });
    for (let i = 0; i < 1000 && plant.check() === undefined; i++)
      plant.step([800, 800], 1, 600, 1e-3);
    expect(plant.check()?.found).toMatch(/inner wheels have been off the ground/);
    expect(plant.state.body[VX]).toBeGreaterThan(0);
  });
});
