import { describe, expect, test } from 'vitest';
import { createLink } from '../../harness/plant/link.ts';
import { createPlant, type Plant } from '../../harness/plant/plant.ts';
import type { Senses, SensorDescription } from '../../harness/plant/sensors.ts';
import { createInputs, MISSING } from '../../lib/signals.ts';
import { referenceCar } from './reference-car.ts';

const plain = { step: 1, noise: 0, offset: 0, delay: 0, dropout: 0 };

function fitted(sensors: SensorDescription, seed = 1): Plant {
  return createPlant({ ...referenceCar('grippy'), sensors }, { seed });
}

function senses(): Required<Senses> {
  return { batteryMv: 0, yawRateMradS: 0, currentMa: [0, 0, 0, 0], wheelDegS: [0, 0, 0, 0] };
}

/** Samples each 10 ms of a bend under power. */
function samples(plant: Plant, count = 100): Required<Senses>[] {
  return Array.from({ length: count }, () => {
    for (let i = 0; i < 10; i++) plant.step([700, 800], 1, 500, 1e-3);
    const out = senses();
    plant.sense(out);
    return out;
  });
}

const all = { supply: plain, gyro: plain, current: plain, wheelSpeed: plain };

describe('sensors', () => {
  test('without errors they read the state, as whole numbers in the units of the hub', () => {
    const plant = fitted(all);
    const last = samples(plant).at(-1)!;
    const { battery, body, current, speeds } = plant.state;
    expect(last.batteryMv).toBe(Math.round(1000 * battery[2]!));
    expect(last.yawRateMradS).toBe(Math.round(1000 * body[5]!));
    expect(last.currentMa.slice(0, 2)).toEqual(
      [...current.slice(0, 2)].map((a) => Math.round(1000 * a)),
    );
    expect(last.wheelDegS[3]).toBe(Math.round((speeds[3]! * 180) / Math.PI));
  });

  test('wheel speeds come in the order of the motors that drive them', () => {
    const plant = fitted({ ...all, wheelOfMotor: [2, 3, 0, 1] });
    const last = samples(plant).at(-1)!;
    const told = [2, 3, 0, 1].map((w) => Math.round((plant.state.speeds[w]! * 180) / Math.PI));
    expect(last.wheelDegS).toEqual(told);
  });

  test('what is not fitted is missing; motors that are not there as well', () => {
    const inputs = createInputs();
    fitted({ gyro: plain }).sense(inputs);
    expect(inputs.batteryMv).toBe(MISSING);
    expect(inputs.currentMa).toEqual([MISSING, MISSING, MISSING, MISSING]);
    expect(inputs.yawRateMradS).toBe(0);
    const last = samples(fitted(all)).at(-1)!;
    expect(last.currentMa.slice(2)).toEqual([MISSING, MISSING]);
  });

  test('steps, offset and noise are what was asked for', () => {
    const stepped = samples(fitted({ supply: { ...plain, step: 25 } }));
    for (const { batteryMv } of stepped) expect(batteryMv % 25).toBe(0);
    const exact = samples(fitted(all), 1500).map(({ yawRateMradS }) => yawRateMradS);
    const noisy = samples(fitted({ ...all, gyro: { ...plain, noise: 40, offset: 15 } }), 1500);
    const errors = noisy.map(({ yawRateMradS }, i) => yawRateMradS - exact[i]!);
    const mean = errors.reduce((a, b) => a + b, 0) / errors.length;
    const spread = Math.sqrt(errors.reduce((sum, e) => sum + (e - mean) ** 2, 0) / errors.length);
    // Four standard errors of 1500 draws.
    expect(Math.abs(mean - 15)).toBeLessThan((4 * 40) / Math.sqrt(1500));
    expect(Math.abs(spread - 40)).toBeLessThan((4 * 40) / Math.sqrt(3000));
  });

  test('a delay gives the value of that long ago, between samples as well', () => {
    const now = samples(fitted(all)).map(({ yawRateMradS }) => yawRateMradS);
    for (const ticks of [1, 2.5, 7]) {
      const delay = ticks * 0.01;
      const late = samples(fitted({ gyro: { ...plain, delay } })).map((s) => s.yawRateMradS);
      for (let i = 40; i < 100; i++) {
        const at = i - ticks;
        const [a, b] = [now[Math.floor(at)]!, now[Math.ceil(at)]!];
        expect(Math.abs(late[i]! - (a + (b - a) * (at % 1)))).toBeLessThanOrEqual(1.5);
      }
    }
  });

  test('drop-outs come at their rate; one seed gives the same samples, another does not', () => {
    const flaky = { ...all, current: { ...plain, noise: 30, dropout: 0.2 } };
    const runs = [5, 5, 6].map((seed) => samples(fitted(flaky, seed), 1000));
    const missing = runs[0]!.filter(({ currentMa }) => currentMa[0] === MISSING).length;
    expect(Math.abs(missing - 200)).toBeLessThan(4 * Math.sqrt(1000 * 0.2 * 0.8));
    expect(runs[1]).toEqual(runs[0]);
    expect(runs[2]).not.toEqual(runs[0]);
  });

  test('a frozen sensor repeats its last sample and shifts no other’s noise', () => {
    const noisy = { ...plain, noise: 20 };
    const each = { supply: noisy, gyro: noisy, current: noisy };
    const [good, bad] = [fitted(each), fitted(each)];
    samples(good, 50);
    const frozen = samples(bad, 50).at(-1)!;
    bad.setFaults([{ kind: 'frozenSensor', sensor: 'current', index: 1 }]);
    const [a, b] = [samples(good, 50), samples(bad, 50)];
    for (const [i, out] of b.entries()) {
      expect(out.currentMa[1]).toBe(frozen.currentMa[1]);
      expect(out.currentMa[0]).toBe(a[i]!.currentMa[0]);
      expect(out.yawRateMradS).toBe(a[i]!.yawRateMradS);
    }
  });

  test('a value beyond 16 bits is held at the end of the range, never read as missing', () => {
    const plant = fitted({ gyro: { ...plain, offset: -90_000 } });
    const out = senses();
    plant.sense(out);
    expect(out.yawRateMradS).toBe(MISSING + 1);
  });
});

describe('the link', () => {
  const description = {
    frameMs: 20,
    jitterMs: 0,
    dropout: 0,
    noiseUs: 0,
    tickMs: 10,
    tickJitterMs: 0,
  };
  const inputs = createInputs();

  test('hands over the newest frame with its age', () => {
    const link = createLink(description, 1);
    const seen = Array.from({ length: 6 }, (_, i) => {
      const time = link.nextTick();
      link.receive(time, 1500 + i, 1400, inputs);
      return [inputs.timeMs, inputs.throttleUs, inputs.ageMs];
    });
    expect(seen).toEqual([
      [0, 1500, 0],
      [10, 1500, 10],
      [20, 1502, 0],
      [30, 1502, 10],
      [40, 1504, 0],
      [50, 1504, 10],
    ]);
  });

  test('while it is lost the age grows; before the first frame there is nothing', () => {
    const link = createLink(description, 1);
    link.isLost = true;
    link.receive(0, 1500, 1500, inputs);
    expect([inputs.throttleUs, inputs.steerUs, inputs.ageMs]).toEqual([MISSING, MISSING, MISSING]);
    link.isLost = false;
    link.receive(20, 1600, 1500, inputs);
    link.isLost = true;
    link.receive(500, 1900, 1900, inputs);
    expect([inputs.throttleUs, inputs.ageMs]).toEqual([1600, 480]);
  });

  test('jitter, noise and lost frames come from the seed and stay in their bounds', () => {
    const rough = { ...description, jitterMs: 8, dropout: 0.3, noiseUs: 3, tickJitterMs: 4 };
    const drive = (seed: number) => {
      const link = createLink(rough, seed);
      return Array.from({ length: 2000 }, () => {
        link.receive(link.nextTick(), 1500, 1500, inputs);
        return { ...inputs, currentMa: [] };
      });
    };
    const seen = drive(3);
    expect(drive(3)).toEqual(seen);
    expect(drive(4)).not.toEqual(seen);
    for (const [i, { timeMs, ageMs, throttleUs }] of seen.entries()) {
      expect(timeMs).toBeGreaterThanOrEqual(i * 10);
      expect(timeMs).toBeLessThanOrEqual(i * 10 + 4);
      if (throttleUs === MISSING) continue;
      expect(ageMs).toBeGreaterThanOrEqual(0);
      expect(Math.abs(throttleUs - 1500)).toBeLessThan(20);
    }
    const old = seen.filter(({ ageMs }) => ageMs > 28).length;
    expect(old).toBeGreaterThan(100);
  });
});
