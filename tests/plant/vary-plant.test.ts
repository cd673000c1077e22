import { describe, expect, test } from 'vitest';
import { checkDescription } from '../../harness/plant/check-description.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { converterStep, varyPlant } from '../../harness/plant/vary-plant.ts';
import { referenceCar } from './reference-car.ts';

const channel = { step: 1, noise: 0, offset: 0, delay: 0, dropout: 0 };
const car = { ...referenceCar('grippy'), sensors: { current: channel } };

/** Currents that the sensors give over a second of full throttle. */
function currents(plant: ReturnType<typeof varyPlant>): number[] {
  const vehicle = createPlant(plant);
  const out = { batteryMv: 0, yawRateMradS: 0, currentMa: [0, 0] };
  return Array.from({ length: 1000 }, () => {
    vehicle.step([600, 600], 1, 0, 1e-3);
    vehicle.sense(out);
    return out.currentMa[0]!;
  });
}

describe('a vehicle that differs from its description', () => {
  test('without a difference nothing is altered', () => {
    expect(varyPlant(car, {})).toEqual(car);
  });

  test('each factor reaches what it names, and nothing else', () => {
    const varied = varyPlant(car, {
      mass: 1.15,
      wheelRadius: 0.9,
      friction: 0.8,
      motors: [{ constant: 0.85, startC: 90 }, { resistance: 1.15 }],
      battery: { voltage: 0.9, resistance: 3, charge: 0.4 },
    });
    expect(() => checkDescription(varied)).not.toThrow();
    expect(varied.body).toEqual({ ...car.body, mass: 1.15 * car.body.mass });
    expect(varied.wheelRadius).toEqual(car.wheelRadius.map((radius) => 0.9 * radius));
    expect(varied.ground.base.friction).toBeCloseTo(0.8 * car.ground.base.friction, 12);
    expect(varied.ground.base.rolling).toBe(car.ground.base.rolling);
    const [left, right] = varied.motors;
    expect(left!.constant).toBeCloseTo(0.85 * car.motors[0]!.constant, 12);
    expect(left!.heat.startC).toBe(90);
    expect(right).toEqual({ ...car.motors[1], resistance: 1.15 * car.motors[1]!.resistance });
    expect(varied.battery.openCircuit).toEqual([0.9 * car.battery.openCircuit[0]!]);
    expect(varied.battery.resistance).toBeCloseTo(3 * car.battery.resistance, 12);
    expect(varied.battery.charge).toBe(0.4);
  });

  test('all motors alike, if one record stands for them', () => {
    const { motors } = varyPlant(car, { motors: { resistance: 1.1 } });
    expect(motors.map(({ resistance }) => resistance)).toEqual(
      car.motors.map(({ resistance }) => 1.1 * resistance),
    );
  });

  test('sensors that are fitted take the errors asked for; none is added', () => {
    const { sensors } = varyPlant(car, {
      sensors: { current: { offset: 40 }, gyro: { noise: 9 } },
    });
    expect(sensors).toEqual({ current: { ...channel, offset: 40 } });
  });

  test('a 10-bit converter over 40 A gives steps of 39 mA, one of 12 bits steps of 10 mA', () => {
    const seen = (bits: number) => {
      const step = converterStep(bits, 40_000);
      const steps = currents(varyPlant(car, { sensors: { current: { step } } })).map(
        (value) => value / step,
      );
      return Math.max(...steps.map((value) => Math.abs(value - Math.round(value))));
    };
    expect(converterStep(10, 40_000)).toBe(39.0625);
    // Samples are whole mA: at most half of one off a step.
    expect(seen(10)).toBeLessThanOrEqual(0.5 / 39);
    expect(seen(12)).toBeLessThanOrEqual(0.5 / 9.7);
    expect(converterStep(16, 1000)).toBe(1);
  });

  test('noise in proportion to the reading, and a converter that is at its end', () => {
    const exact = currents(car);
    const noisy = currents(varyPlant(car, { sensors: { current: { noiseShare: 0.05 } } }));
    const most = Math.max(...exact);
    const share = noisy.flatMap((value, i) =>
      exact[i]! > most / 4 ? [value / exact[i]! - 1] : [],
    );
    const spread = Math.sqrt(share.reduce((sum, e) => sum + e * e, 0) / share.length);
    // Four standard errors.
    expect(share.length).toBeGreaterThan(100);
    expect(Math.abs(spread - 0.05)).toBeLessThan((4 * 0.05) / Math.sqrt(2 * share.length));
    const clipped = currents(varyPlant(car, { sensors: { current: { most: 700 } } }));
    expect(most).toBeGreaterThan(900);
    expect(Math.max(...clipped)).toBe(700);
  });
});
