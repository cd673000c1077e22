import { expect, test } from 'vitest';
import { createResiduals } from '../../harness/study/residual.ts';
import type { TrueEvent } from '../../harness/study/truth.ts';
import { V } from '../../lib/index.ts';

// A drive by hand: 2 m/s, two rear motors, the right wheel 0.5 m/s too fast at 2 A.

const plant = {
  driveline: {
    motors: [
      [0, 0, 1, 0],
      [0, 0, 0, 1],
    ],
  },
  body: { trackRear: 0.1 },
  wheelRadius: [0.03, 0.03, 0.03, 0.03],
} as unknown as Parameters<typeof createResiduals>[0];
/** 1 Ohm and 2 V s/m: an ampere stands for 0.5 m/s. */
const vehicle: number[] = [];
vehicle[V.MOTOR_MOHM] = 1000;
vehicle[V.EMF_UV] = 2000;

/**
 * @param way 1 forwards, -1 backwards
 * @param yawRate rad/s: outside wheels are 5 cm further out
 */
function drive(way = 1, yawRate = 0) {
  const residuals = createResiduals(plant, vehicle);
  for (let i = 0; i < 20; i++) {
    const left = way * 2 - 0.05 * yawRate;
    const right = way * 2.5 + 0.05 * yawRate;
    const state = {
      body: [0, 0, 0, way * 2, 0, yawRate],
      speeds: [0, 0, left / 0.03, right / 0.03],
      current: [way * 0.4, way * 2],
    };
    const command = way * (i < 15 ? 600 : 200);
    residuals.watch(i / 100, { state } as never, [command, command]);
  }
  return residuals;
}

const event = { severity: '', isSliding: false, fromS: 0.1, toS: 0.19, dueS: 0.5 } as const;

test('a spin: the speed it adds over 5 % and 15 mA of the current, while it is driven', () => {
  const spin = { ...event, kind: 'spin', motor: 1 } as TrueEvent;
  const { sigmas, ticks } = drive().of(spin)!;
  expect(sigmas).toBeCloseTo(0.5 / (0.5 * (0.05 * 2 + 0.015)), 6);
  expect(ticks).toBe(5);
  expect(drive().of({ ...spin, motor: 0 })!.sigmas).toBeCloseTo(0, 6);
  expect(drive(-1).of(spin)!.sigmas).toBeCloseTo(sigmas, 6);
  expect(drive(1, 4).of(spin)!.sigmas).toBeCloseTo(sigmas, 6);
  expect(drive().of({ ...spin, dueS: 0.12 })!.ticks).toBe(3);
});

test('a free motor: what it draws less than the other, over the noise of that', () => {
  const free = { ...event, kind: 'free', motor: 0 } as TrueEvent;
  expect(drive().of(free)!.sigmas).toBeCloseTo(1.6 / 0.115, 6);
});

test('a jam shows by no noise; what is over before it is driven shows nothing', () => {
  expect(drive().of({ ...event, kind: 'jam', motor: 0 })).toBeUndefined();
  const late = { ...event, kind: 'spin', motor: 1, fromS: 0.16 } as TrueEvent;
  expect(drive().of(late)).toEqual({ sigmas: 0, ticks: 0 });
});
