import { describe, expect, test } from 'vitest';
import type { Fault } from '../../harness/plant/fault.ts';
import { createPlant, type Plant } from '../../harness/plant/plant.ts';
import { VX, VY, X, YAW_RATE } from '../../harness/plant/state.ts';
import { UserError } from '../../harness/problems.ts';
import { CARS } from './cars.ts';
import { referenceCar } from './reference-car.ts';

const STEP = 1e-3;
const car = referenceCar('grippy');

/** Drives straight on at half throttle, then with the faults; gives the plant at the end. */
function driven(faults: Fault[], seconds = 1.5, drive = [500, 500]): Plant {
  const plant = createPlant(car);
  for (let i = 0; i < 1.5 / STEP; i++) plant.step(drive, 1, 0, STEP);
  plant.setFaults(faults);
  for (let i = 0; i < seconds / STEP; i++) plant.step(drive, 1, 0, STEP);
  return plant;
}

const intact = driven([]);

describe('faults that switch in mid-run', () => {
  test.each([0, 1, 2, 3])('shaft %i slips: no drive on that wheel, the motors race', (wheel) => {
    const plant = driven([{ kind: 'slippedShaft', wheel }]);
    const { speeds, body } = plant.state;
    // It rolls with the ground again: slower than a driven wheel's slip, within rolling loss.
    expect(speeds[wheel]! * 0.031).toBeCloseTo(
      body[VX]! - (wheel % 2 === 0 ? 1 : -1) * body[YAW_RATE]! * 0.0525,
      1,
    );
    expect(Math.abs(plant.observe().slipRatio[wheel]!)).toBeLessThan(0.02);
    // A wheel that is not driven is dragged along by the others.
    if (wheel < 2)
      expect(Math.abs(plant.state.current[wheel]!)).not.toBeCloseTo(
        intact.state.current[wheel]!,
        2,
      );
  });

  test('rear shafts and front drive gone: motors run at no-load speed and current', () => {
    const plant = driven(
      [
        { kind: 'slippedShaft', wheel: 0 },
        { kind: 'slippedShaft', wheel: 1 },
        { kind: 'lostDrive', constraint: 'frontDrive' },
      ],
      3,
    );
    const [motor] = car.motors;
    const current = plant.state.current[0]!;
    // Torque only against the motor's own friction: k i eta = friction.
    expect(current * motor!.constant * motor!.gearEfficiency).toBeCloseTo(motor!.friction, 5);
    expect(plant.state.body[VX]).toBeLessThan(intact.state.body[VX]!);
  });

  test('front drive lost: the rear still drives, the front rolls', () => {
    const plant = driven([{ kind: 'lostDrive', constraint: 'frontDrive' }]);
    expect(plant.state.body[VX]).toBeGreaterThan(1);
    const { slipRatio } = plant.observe();
    expect(slipRatio[2]).toBeLessThan(0);
    expect(slipRatio[0]).toBeGreaterThan(0);
  });

  test.each([0, 1, 2, 3])(
    'wheel %i jams: it stands at once and the car pulls to its side',
    (wheel) => {
      const plant = driven([{ kind: 'jammedWheel', wheel }], 0.15);
      expect(plant.state.speeds[wheel]).toBeCloseTo(0, 9);
      expect(plant.state.body[YAW_RATE]! * (wheel % 2 === 0 ? 1 : -1)).toBeGreaterThan(0.1);
      // A jammed rear wheel stalls its motor: all of the voltage drops across its resistance.
      if (wheel >= 2) return;
      const volts = plant.state.battery[2]! * 0.5;
      expect(plant.state.current[wheel]!).toBeCloseTo(volts / car.motors[0]!.resistance, 6);
    },
  );

  test.each([0, 1, 2, 3])('wheel %i is lost: its corner drags', (wheel) => {
    const plant = driven([{ kind: 'lostWheel', wheel }], 0.15);
    expect(plant.state.force[wheel]).toBeLessThan(-0.3);
    expect(plant.state.body[YAW_RATE]! * (wheel % 2 === 0 ? 1 : -1)).toBeGreaterThan(0.05);
  });

  test('a dead motor draws nothing, and the other side pushes the car round', () => {
    const plant = driven([{ kind: 'deadMotor', motor: 0 }], 0.3);
    expect(plant.state.current[0]).toBe(0);
    expect(plant.state.current[1]).toBeGreaterThan(0.1);
    expect(plant.state.body[YAW_RATE]).toBeGreaterThan(0.05);
  });

  test('a slipped pinion lets its motor race and its wheel roll', () => {
    const plant = driven([{ kind: 'slippedPinion', motor: 1 }], 3);
    const { speeds, battery } = plant.state;
    const noLoad = (battery[2]! * 0.5) / car.motors[0]!.constant;
    expect(speeds[5]! / noLoad).toBeGreaterThan(0.95);
    expect(speeds[1]! / speeds[5]!).toBeLessThan(0.9);
  });

  test('everything at once on every car stays finite, and mends', () => {
    for (const each of CARS) {
      const plant = createPlant(each);
      const drive = [700, 500, 700, 500];
      const faults: Fault[] = [0, 1, 2, 3].flatMap((wheel) => [
        { kind: 'slippedShaft', wheel },
        { kind: 'jammedWheel', wheel },
      ]);
      faults.push({ kind: 'slippedPinion', motor: 0 }, { kind: 'lostWheel', wheel: 2 });
      for (const present of [[], faults, faults.slice(0, 3), []]) {
        plant.setFaults(present);
        for (let i = 0; i < 500; i++) plant.step(drive, 1, 300, STEP);
        expect(plant.state.all.every(Number.isFinite)).toBe(true);
      }
      expect(Math.hypot(plant.state.body[VX]!, plant.state.body[VY]!)).toBeGreaterThan(0.1);
    }
  });

  test('a wheel that is jammed stands still wherever the car is put', () => {
    const plant = createPlant(car);
    plant.setFaults([{ kind: 'jammedWheel', wheel: 3 }]);
    plant.place({ x: 0, y: 0, yaw: 0, speed: 2 });
    expect(plant.state.speeds[3]).toBeCloseTo(0, 12);
    expect(plant.state.speeds[0]).toBeGreaterThan(10);
    expect(plant.energies().shock).toBe(0);
  });

  test('a shaft that takes hold again turns with its wheel', () => {
    const plant = driven([{ kind: 'slippedShaft', wheel: 0 }]);
    expect(plant.state.speeds[4]! - plant.state.speeds[0]!).not.toBeCloseTo(0, 1);
    plant.setFaults([]);
    expect(plant.state.speeds[4]! / plant.state.speeds[0]!).toBeCloseTo(1, 12);
    expect(plant.energies().shock).toBeGreaterThan(0);
    expect(plant.state.body[X]).toBeGreaterThan(0);
  });
});

test.each<[Fault, RegExp]>([
  [{ kind: 'slippedShaft', wheel: 4 }, /fault slippedShaft: found number 4, expected 0 to 3/],
  [{ kind: 'deadMotor', motor: 2 }, /fault deadMotor: found number 2, expected 0 to 1/],
  [{ kind: 'jammedWheel', wheel: 0.5 }, /found number 0.5/],
  [{ kind: 'lostDrive', constraint: 'frontAxle' }, /found "frontAxle", expected frontDrive/],
])('a fault of a part that is not there is refused: %j', (fault, message) => {
  const plant = createPlant(car);
  expect(() => plant.setFaults([fault])).toThrow(UserError);
  expect(() => plant.setFaults([fault])).toThrow(message);
});
