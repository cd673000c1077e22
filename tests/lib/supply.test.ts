import { describe, expect, it } from 'vitest';
import { Cause, Flag, MISSING, State, V } from '../../lib/index.ts';
import { createNoise } from '../limits/noise.ts';
import { plainConstants } from '../limits/plain-constants.ts';
import { createArmedBench, createBench, pulse } from './bench.ts';

/** Share that is left at a steady voltage. */
function limitAt(batteryMv: number, vehicle = {}): number {
  return createBench(plainConstants({ vehicle })).step(1, { batteryMv }).limit;
}

describe('low supply', () => {
  it('derates linearly from 1000 at the warning to the floor at the low voltage', () => {
    expect(limitAt(7400)).toBe(1000);
    expect(limitAt(7000)).toBe(1000);
    // 300 + 700 * (6700 - 6400) / 600.
    expect(limitAt(6700)).toBeCloseTo(650, 9);
    expect(limitAt(6400)).toBe(300);
    expect(limitAt(100)).toBe(300);
  });

  it('is seen through a low-pass of 200 ms', () => {
    const bench = createBench(plainConstants({}));
    bench.step(1, { batteryMv: 7000 });
    for (let n = 1; n <= 40; n++) {
      const mv = 6500 + 500 * (200 / 210) ** n;
      const { limit } = bench.step(1, { batteryMv: 6500 });
      expect(limit).toBeCloseTo(300 + (700 * (mv - 6400)) / 600, 6);
    }
  });

  it('does not chatter: under a noisy voltage about the warning the share never turns', () => {
    const bench = createArmedBench(plainConstants({}));
    const noise = createNoise(20261125);
    let last = 1000;
    let turns = 0;
    let way = 0;
    for (let n = 0; n < 6000; n++) {
      const { limit } = bench.step(1, { batteryMv: 7000 + noise.below(361) - 180 });
      if (limit !== last && Math.sign(limit - last) !== way) {
        turns++;
        way = Math.sign(limit - last);
      }
      last = limit;
    }
    // Once down, and never up again: the low-pass never brings it to 7200 mV.
    expect(turns).toBe(1);
    expect(last).toBeLessThan(990);
    // Without the 200 mV of hysteresis the same noise turns it many times.
    const bare = createArmedBench(plainConstants({ vehicle: { [V.SUPPLY_HYSTERESIS_MV]: 0 } }));
    const again = createNoise(20261125);
    let other = 0;
    last = 1000;
    way = 0;
    for (let n = 0; n < 6000; n++) {
      const { limit } = bare.step(1, { batteryMv: 7000 + again.below(361) - 180 });
      if (limit !== last && Math.sign(limit - last) !== way) {
        other++;
        way = Math.sign(limit - last);
      }
      last = limit;
    }
    expect(other).toBeGreaterThan(100);
  });

  it('is eased by 250 permille/s once the voltage has passed warning and hysteresis', () => {
    const bench = createBench(plainConstants({}));
    bench.step(1, { batteryMv: 6700 });
    bench.step(200, { batteryMv: 7100 });
    expect(bench.outputs.limit).toBeCloseTo(650, 9);
    bench.step(200, { batteryMv: 7400 });
    const before = bench.outputs.limit;
    expect(before).toBeGreaterThan(650);
    expect(bench.step().limit - before).toBeCloseTo(before < 997.5 ? 2.5 : 1000 - before, 9);
    expect(bench.step(200).limit).toBe(1000);
  });

  it('below the cut-off for its time latches a fault and stops', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(60, { throttleUs: pulse(1000) });
    let ticks = 0;
    while (bench.step(1, { batteryMv: 5000 }).state === State.DRIVING) ticks++;
    // 5000 + 2400 (200/210)^n falls below 6000 mV with n = 18; 500 ms are 50 ticks, from that one
    // on; the tick after stops.
    expect(ticks).toBe(18 - 1 + 50);
    expect(bench.outputs.cause).toBe(Cause.LOW_SUPPLY);
    bench.step(30);
    expect(bench.outputs).toMatchObject({ state: State.FAULT, enable: 0 });
  });

  it('shorter than its time does not', () => {
    const bench = createArmedBench(plainConstants({}));
    // Back above the cut-off within 11 ticks more.
    bench.step(18 + 35, { batteryMv: 5000 });
    bench.step(100, { batteryMv: 7400 });
    expect(bench.outputs.state).toBe(State.READY);
  });
});

describe('a supply above its reference', () => {
  it('is compensated: full command means the reference voltage', () => {
    expect(limitAt(8400, { [V.SUPPLY_REFERENCE_MV]: 7400 })).toBeCloseTo((1000 * 7400) / 8400, 9);
    expect(limitAt(7400, { [V.SUPPLY_REFERENCE_MV]: 7400 })).toBe(1000);
  });
});

describe('a supply that is not measured', () => {
  it('keeps what was known and adds the blind cap', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(60, { throttleUs: pulse(1000) });
    bench.step(30, { batteryMv: MISSING });
    expect(bench.outputs.drive[0]).toBe(300);
    expect(bench.outputs.flags & Flag.SENSOR_LOST).toBe(Flag.SENSOR_LOST);
    bench.step(60, { batteryMv: 7400 });
    expect(bench.outputs.drive[0]).toBe(1000);
  });

  it('is one that reads 0 mV where no cut-off would stop it, from power-up on as well', () => {
    const none = { [V.SUPPLY_WARN_MV]: 0, [V.SUPPLY_LOW_MV]: 0, [V.SUPPLY_CUT_MV]: 0 };
    const bench = createArmedBench(plainConstants({ vehicle: none }));
    bench.inputs.batteryMv = 0;
    bench.step(60, { throttleUs: pulse(1000), batteryMv: 0 });
    expect(bench.outputs.drive[0]).toBe(300);
    expect(bench.outputs.flags & Flag.SENSOR_LOST).toBe(Flag.SENSOR_LOST);
    // A stall is still told, by the voltage that was known.
    bench.step(60, { batteryMv: 0, currentMa: [4440, 4440, 0, 0] });
    expect(bench.outputs.cause).toBe(Cause.STALLED);
  });

  it('and reads 0 mV is low where a cut-off stops it', () => {
    const bench = createArmedBench(plainConstants({}));
    bench.step(120, { throttleUs: pulse(1000), batteryMv: 0 });
    expect(bench.outputs.cause).toBe(Cause.LOW_SUPPLY);
  });
});
