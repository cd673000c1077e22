import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createGyroWatch, type GyroWatch } from '../../lib/gyro-watch.ts';
import { MISSING } from '../../lib/index.ts';
import { createNoise } from '../limits/noise.ts';

const TICK_MS = 10;

/** Feeds a watch; `sample` is asked once a tick. */
function feed(
  watch: GyroWatch,
  sample: () => number,
  { ms, moving = 0, still = 0 }: { ms: number; moving?: number; still?: number },
): void {
  for (let t = 0; t < ms; t += TICK_MS) watch.run(sample(), moving, still, TICK_MS, TICK_MS);
}

/** A gyro with noise of about that standard deviation, by the sum of twelve even draws. */
function noisy(mean: number, deviation: number, seed = 1): () => number {
  const noise = createNoise(seed);
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += noise.below(10_000) / 10_000;
    return Math.round(mean + deviation * sum);
  };
}

/** A watch that has rested with that offset and is trusted. */
function trusted(offset = 0): GyroWatch {
  const watch = createGyroWatch();
  feed(watch, noisy(offset, 5), { ms: 2000, still: 1 });
  expect(watch.trust).toBe(1000);
  return watch;
}

/** Time until nothing of the trust is left, ms. */
function timeToDoubt(watch: GyroWatch, sample: () => number, moving = 1): number {
  let ms = 0;
  while (watch.trust > 0 && ms < 10_000) {
    feed(watch, sample, { ms: TICK_MS, moving });
    ms += TICK_MS;
  }
  return ms;
}

describe('trust', () => {
  it('is nothing until a rest has shown the offset', () => {
    const watch = createGyroWatch();
    feed(watch, noisy(0, 5), { ms: 5000 });
    expect(watch.trust).toBe(0);
    feed(watch, noisy(0, 5), { ms: 500, still: 1 });
    expect(watch.trust).toBeGreaterThan(0);
  });

  it('is gone within 300 ms of a gyro that falls silent, sticks, or gives garbage', () => {
    expect(timeToDoubt(trusted(), () => MISSING)).toBeLessThanOrEqual(100);
    for (const stuckAt of [0, 3, -700, 32_767]) {
      expect(timeToDoubt(trusted(), () => stuckAt)).toBeLessThanOrEqual(230);
    }
    for (let seed = 1; seed <= 50; seed++) {
      const noise = createNoise(seed);
      const garbage = () => noise.below(65_535) - 32_767;
      expect(timeToDoubt(trusted(), garbage, 0)).toBeLessThanOrEqual(200);
    }
  });

  it('comes back in no less than a second, and not while the fault lasts', () => {
    const watch = trusted();
    feed(watch, () => 500, { ms: 3000, moving: 1 });
    expect(watch.trust).toBe(0);
    feed(watch, noisy(500, 5), { ms: 500, moving: 1 });
    expect(watch.trust).toBeGreaterThan(0);
    expect(watch.trust).toBeLessThanOrEqual(500);
    feed(watch, noisy(500, 5), { ms: 600, moving: 1 });
    expect(watch.trust).toBe(1000);
  });

  it('stays with a gyro that is quiet at a standstill, for minutes', () => {
    const watch = trusted();
    feed(watch, () => 4, { ms: 60_000, still: 1 });
    feed(watch, () => 4, { ms: 60_000 });
    expect(watch.trust).toBe(1000);
  });

  it('stays with a noise of 5 °/s for ten minutes of moving, and goes at 15 °/s', () => {
    const watch = trusted();
    feed(watch, noisy(2000, 87), { ms: 600_000, moving: 1 });
    expect(watch.trust).toBe(1000);
    expect(timeToDoubt(trusted(), noisy(2000, 262))).toBeLessThan(3000);
  });

  it('stays with the fastest yaw a car can show: 5 rad/s there and back within 0.2 s', () => {
    const watch = trusted();
    let t = 0;
    const weave = () => {
      t += TICK_MS / 1000;
      return Math.round(2500 * Math.sin(2 * Math.PI * 2.5 * t));
    };
    feed(watch, weave, { ms: 10_000, moving: 1 });
    expect(watch.trust).toBe(1000);
  });

  it('lasts with a gyro read at every other tick, and with steps of 1 °/s that change', () => {
    const watch = trusted();
    const source = noisy(1500, 10);
    let held = 0;
    let even = false;
    const halved = () => {
      even = !even;
      if (even) held = source();
      return held;
    };
    feed(watch, halved, { ms: 60_000, moving: 1 });
    expect(watch.trust).toBe(1000);
  });
});

describe('the offset', () => {
  it('is the mean at rest, and is taken off', () => {
    for (const offset of [-140, -30, 0, 55, 140]) {
      const watch = trusted(offset);
      watch.run(1000, 1, 0, TICK_MS, TICK_MS);
      // 25 samples of a noise of 5 mrad/s: 1 mrad/s is the standard error.
      expect(Math.abs(watch.rate - (1000 - offset))).toBeLessThan(4);
    }
  });

  it('follows the gyro from rest to rest', () => {
    const watch = trusted(0);
    feed(watch, noisy(800, 5), { ms: 1000 });
    feed(watch, noisy(60, 5), { ms: 1000, still: 1 });
    watch.run(1000, 1, 0, TICK_MS, TICK_MS);
    expect(Math.abs(watch.rate - 940)).toBeLessThan(4);
  });

  it('of more than 150 mrad/s is not believed', () => {
    const watch = trusted();
    feed(watch, noisy(170, 3), { ms: 1000, still: 1 });
    expect(watch.trust).toBe(0);
    feed(watch, noisy(170, 3), { ms: 5000, moving: 1 });
    expect(watch.trust).toBe(0);
    feed(watch, noisy(20, 3), { ms: 2000, still: 1 });
    expect(watch.trust).toBe(1000);
  });

  it('is not learnt while the car still turns or is turned by hand', () => {
    const watch = trusted(0);
    let rate = 900;
    // Runs out within 0.7 s: at any time more than 60 mrad/s away within a quarter of a second.
    feed(watch, () => (rate = Math.max(0, rate - 13)), { ms: 690, still: 1 });
    watch.run(1000, 1, 0, TICK_MS, TICK_MS);
    expect(Math.abs(watch.rate - 1000)).toBeLessThan(4);
    let t = 0;
    const byHand = () => {
      t += TICK_MS / 1000;
      return Math.round(400 * Math.sin(2 * Math.PI * t));
    };
    feed(watch, byHand, { ms: 5000, still: 1 });
    watch.run(1000, 1, 0, TICK_MS, TICK_MS);
    expect(Math.abs(watch.rate - 1000)).toBeLessThan(4);
  });

  it('never moves by more than 150 mrad/s, whatever comes', () => {
    const sample = fc.oneof(
      fc.integer({ min: -32_768, max: 32_767 }),
      fc.integer({ min: -200, max: 200 }),
    );
    const leg = fc.record({
      sample,
      ms: fc.integer({ min: 10, max: 900 }),
      still: fc.nat({ max: 1 }),
    });
    fc.assert(
      fc.property(fc.array(leg, { maxLength: 20 }), (legs) => {
        const watch = createGyroWatch();
        for (const { sample: value, ...how } of legs) feed(watch, () => value, how);
        watch.run(500, 1, 0, TICK_MS, TICK_MS);
        expect(Math.abs(watch.rate - 500)).toBeLessThanOrEqual(150);
        expect(watch.trust).toBeGreaterThanOrEqual(0);
        expect(watch.trust).toBeLessThanOrEqual(1000);
      }),
      { seed: 403, numRuns: 300 },
    );
  });
});
