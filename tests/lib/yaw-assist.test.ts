import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Flag, Layout, MISSING, S, V } from '../../lib/index.ts';
import { createYawAssist } from '../../lib/yaw-assist.ts';
import { type Changes, plainConstants } from '../limits/plain-constants.ts';
import { type SingleTrack, singleTrack } from '../published/single-track-model.ts';
import { createArmedBench, pulse } from './bench.ts';
import { createYawRig } from './yaw-rig.ts';

/** Ticks of 10 ms in which an excess of a quarter is believed. */
const SURE = 4;

/** Yaw rate that the stage holds the vehicle against, mrad/s: that at which it asks for nothing. */
function reference(speed: number, steer: number, setup: Changes = {}): number {
  // Far above any reference, so that the answer is in proportion to what lies above it.
  const rate = 20_000;
  const rig = createYawRig({ [S.YAW_AUTHORITY]: 10_000, [S.YAW_GAIN]: 100, ...setup });
  rig.rest();
  rig.swing(rate);
  rig.tick({ shake: 0, demand: 500, steer, speed }, SURE);
  return rate + rig.change * 10;
}

describe('the reference', () => {
  it('is the geometry’s yaw rate and an eighth at low speed, for any steering', () => {
    for (const steer of [100, 350, 700, 1000]) {
      for (const speed of [200, 500, 900]) {
        expect(reference(speed, steer)).toBeCloseTo((1.125 * speed * 2 * steer) / 1000, 6);
      }
    }
  });

  it('is at most what the grip bears: lateral acceleration over speed', () => {
    expect(reference(2000, 1000)).toBeCloseTo(2500, 6);
    expect(reference(4000, 1000)).toBeCloseTo(1250, 6);
    expect(reference(4000, 1000, { [S.YAW_GRIP_MM_S2]: 8000 })).toBeCloseTo(2000, 6);
  });

  it('with an understeer gradient halves the gain of the geometry at characteristic speed', () => {
    // 1 / v_ch^2 = 0.25 s^2/m^2, so v_ch = 2 m/s.
    const setup = { [S.YAW_UNDERSTEER]: 2500, [S.YAW_GRIP_MM_S2]: 32_000 };
    expect(reference(2000, 500, setup)).toBeCloseTo(1.125 * 1000, 6);
    expect(reference(1000, 500, setup)).toBeCloseTo(1.125 * 800, 6);
  });

  it('agrees with an integrated single-track vehicle of published equations (Althoff 2017)', () => {
    const car: SingleTrack = {
      mu: 1,
      stiffnessFront: 18,
      stiffnessRear: 21,
      lf: 1.2,
      lr: 1.4,
      h: 0,
      m: 1100,
      inertia: 1800,
      steeringRate: [-1, 1],
      steering: [-1, 1],
      speed: [-10, 60],
      switchSpeed: 8,
      acceleration: 10,
    };
    const wheelbase = car.lf + car.lr;
    // EG = slip angle of the front less that of the rear, over lateral acceleration.
    const gradient = (1 / car.stiffnessFront - 1 / car.stiffnessRear) / 9.81;
    for (const speed of [5, 12, 25]) {
      // A thousandth of a radian: sine, tangent and angle are the same.
      let state = [0, 0, 0.001, speed, 0, 0, 0];
      for (let i = 0; i < 20_000; i++) {
        const rate = singleTrack(car, state, [0, 0]);
        state = state.map((value, j) => value + rate[j]! / 1000);
      }
      const rig = createYawRig(
        {
          [S.YAW_AUTHORITY]: 1e6,
          [S.YAW_GAIN]: 1e6,
          [S.YAW_UNDERSTEER]: (gradient / wheelbase) * 10_000,
          [S.YAW_GRIP_MM_S2]: 32_000,
        },
        { [V.CURVATURE]: (0.001 / wheelbase) * 1000 },
      );
      rig.rest();
      rig.swing(100);
      rig.tick({ shake: 0, demand: 500, steer: 1000, speed: speed * 1000 }, SURE);
      expect((100 + rig.change / 1000) / (1125 * state[5]!)).toBeCloseTo(1, 4);
    }
  });

  it('falls with the car’s own lag when the steering is taken back, and rises at once', () => {
    const rig = createYawRig({ [S.YAW_AUTHORITY]: 10_000, [S.YAW_GAIN]: 1000 });
    rig.rest();
    rig.swing(3000);
    rig.tick({ demand: 500, speed: 1000, steer: 1000 }, SURE);
    expect(rig.change).toBeLessThan(-740);
    rig.tick({ rate: 1500 });
    expect(rig.change).toBe(0);
    rig.tick({ steer: 200 });
    // 80 ms of lag, a tick of 10 ms: 1000 - 800 / 9 permille still count.
    expect(rig.change).toBe(0);
    rig.tick({}, 60);
    expect(rig.change).toBeLessThan(-1040);
  });
});

describe('the answer', () => {
  const bend = { demand: 500, steer: 1000, speed: 2000 };

  it('is gain times excess, plus integral gain times its sum over time', () => {
    const rig = createYawRig({ [S.YAW_GAIN]: 100, [S.YAW_INTEGRAL_GAIN]: 1000 });
    rig.rest();
    rig.swing(3200);
    // The cap is 2500 mrad/s: 700 above it, then 10 ms later.
    rig.tick({ ...bend, shake: 0 }, SURE);
    expect(rig.change).toBeCloseTo(-(70 + 7), 9);
    rig.tick({});
    expect(rig.change).toBeCloseTo(-(70 + 14), 9);
  });

  it('waits until the excess has been a quarter for 40 ms without a break', () => {
    const rig = createYawRig({ [S.YAW_INTEGRAL_GAIN]: 1000 });
    rig.rest();
    rig.swing(3120);
    // A quarter above the cap is 3125 mrad/s; one long answered would leave its integral behind.
    for (const rate of [3120, 3130, 3130, 3130, 3120, 3130, 3130, 3130]) {
      rig.tick({ ...bend, shake: 0, rate });
      expect(rig.change).toBe(0);
    }
    rig.tick({ rate: 3120, shake: 2 }, 300);
    expect(rig.change).toBe(0);
    rig.tick({ rate: 3130 }, SURE - 1);
    expect(rig.change).toBe(0);
    rig.tick({});
    expect(rig.change).toBe(-300);
  });

  it('then is one to any excess, until there has been none for 40 ms', () => {
    const rig = createYawRig();
    const at = (rate: number, ticks = 1): number => {
      rig.tick({ ...bend, shake: 0, rate }, ticks);
      return rig.change;
    };
    rig.rest();
    rig.swing(3300);
    at(3300, SURE);
    expect(at(2600, 9)).toBeCloseTo(-50, 9);
    expect(at(2400, 4)).toBe(0);
    expect(at(2600)).toBeCloseTo(-50, 9);
    expect(at(2400, 5)).toBe(0);
    expect(at(2600, 9)).toBe(0);
    expect(at(3300, SURE - 1)).toBe(0);
    expect(at(3300)).toBe(-300);
    // A throttle let go ends it at once.
    rig.tick({ demand: 0 });
    expect(rig.change).toBe(0);
    expect(at(2600, 9)).toBe(0);
  });

  it('never deepens the cut, and never passes its authority', () => {
    const tick = fc.record({
      rate: fc.integer({ min: -9000, max: 9000 }),
      demand: fc.integer({ min: -1000, max: 1000 }),
      steer: fc.integer({ min: -1000, max: 1000 }),
      speed: fc.integer({ min: -6000, max: 6000 }),
      ticks: fc.integer({ min: 1, max: 40 }),
    });
    let acted = 0;
    fc.assert(
      fc.property(fc.array(tick, { maxLength: 30 }), (legs) => {
        const rig = createYawRig({ [S.YAW_INTEGRAL_GAIN]: 2000 });
        rig.rest();
        for (const { ticks, ...inputs } of legs) {
          for (let i = 0; i < ticks; i++) {
            rig.tick(inputs);
            if (rig.change < 0) acted++;
            if (!(rig.change <= 0 && rig.change >= -300)) throw new Error(`${rig.change}`);
          }
        }
      }),
      { seed: 401, numRuns: 300 },
    );
    expect(acted).toBeGreaterThan(1500);
  });

  it('does not wind up: after any time at its bound it comes back as after a moment', () => {
    const backFrom = (ticks: number): number => {
      const rig = createYawRig({ [S.YAW_INTEGRAL_GAIN]: 2000 });
      rig.rest();
      rig.swing(3500);
      rig.tick(bend, ticks);
      expect(rig.change).toBe(-300);
      let back = 0;
      rig.tick({ rate: 2400 });
      while (rig.change < 0 && back < 1000) {
        rig.tick({});
        back++;
      }
      return back;
    };
    expect(backFrom(2000)).toBe(backFrom(100));
    expect(backFrom(2000)).toBeLessThan(30);
  });

  it('is nothing without drive, at walking pace, straight on and against the way it rolls', () => {
    const rig = createYawRig({ [S.YAW_INTEGRAL_GAIN]: 2000 });
    const left: number[] = [];
    for (const change of [{ demand: 0 }, { speed: 199 }, { steer: 0.9 }, { speed: -2000 }]) {
      rig.rest();
      rig.swing(4000);
      rig.tick(bend, 20);
      expect(rig.change).toBe(-300);
      rig.tick(change);
      left.push(rig.change);
    }
    expect(left).toEqual([0, 0, 0, 0]);
  });

  it('grows from straight ahead to a tenth of the lock, without a jump at either', () => {
    const rig = createYawRig();
    rig.rest();
    rig.swing(9000);
    rig.tick(bend, SURE);
    const at = (steer: number): number => {
      rig.tick({ ...bend, steer });
      return rig.change;
    };
    expect(at(10)).toBeCloseTo(-30, 9);
    expect(at(50)).toBeCloseTo(-150, 9);
    expect(at(100)).toBeCloseTo(-300, 9);
    expect(at(1000)).toBeCloseTo(-300, 9);
  });

  it('is the same to the last bit in a mirror, and in reverse', () => {
    const tick = fc.record({
      rate: fc.integer({ min: 0, max: 5000 }),
      steer: fc.integer({ min: -1000, max: 1000 }),
      demand: fc.integer({ min: -1000, max: 1000 }),
      speed: fc.integer({ min: -4000, max: 4000 }),
      length: fc.integer({ min: 1, max: 8 }),
    });
    let acted = 0;
    fc.assert(
      fc.property(
        fc.array(tick, { maxLength: 20 }),
        fc.integer({ min: -150, max: 150 }),
        (ticks, offset) => {
          const [own, mirrored, reverse] = [0, 1, 2].map(() =>
            createYawRig({ [S.YAW_INTEGRAL_GAIN]: 900, [S.YAW_UNDERSTEER]: 300 }),
          );
          own!.rest(offset);
          mirrored!.tick({ shake: -2 });
          mirrored!.rest(-offset);
          own!.tick({});
          reverse!.rest(offset);
          reverse!.tick({});
          for (const one of ticks) {
            const { steer, demand, speed, length } = one;
            // Turning as it is steered, in two ticks out of three.
            const rate = one.rate % 3 > 0 && steer * demand < 0 ? -one.rate : one.rate;
            for (const rig of [own!, reverse!]) rig.swing(rate);
            mirrored!.swing(-rate);
            own!.tick({ ...one, shake: 0, rate }, length);
            mirrored!.tick({ ...one, shake: 0, rate: -rate, steer: -steer }, length);
            const turned = { demand: -demand, speed: -speed, steer: -steer };
            reverse!.tick({ ...one, shake: 0, ...turned, rate }, length);
            if (own!.change < 0) acted++;
            expect(Object.is(mirrored!.change, own!.change)).toBe(true);
            expect(Object.is(reverse!.change, own!.change)).toBe(true);
          }
        },
      ),
      { seed: 402, numRuns: 150 },
    );
    expect(acted).toBeGreaterThan(100);
  });

  it('is off without authority, without a gyro, and where no axle is split', () => {
    const cases: [Changes, Changes][] = [
      [{ [S.YAW_AUTHORITY]: 0 }, {}],
      [{}, { [V.HAS_GYRO]: 0 }],
      [{}, { [V.LAYOUT]: Layout.TRACKED }],
      [{}, { [V.LAYOUT]: Layout.SINGLE, [V.MOTORS]: 1 }],
    ];
    for (const [setup, vehicle] of cases) {
      const rig = createYawRig(setup, vehicle);
      rig.rest();
      rig.swing(9000);
      expect(rig.tick(bend, 20)).toBe(0);
      expect(rig.change).toBe(0);
    }
    const pairs = createYawRig({}, { [V.LAYOUT]: Layout.TWO_PAIRS, [V.MOTORS]: 4 });
    pairs.rest();
    pairs.swing(9000);
    expect(pairs.tick(bend, 20)).toBe(Flag.ASSIST);
    expect(pairs.change).toBe(-300);
  });

  it('of a gyro fitted upside down is nothing at all in a bend that is steered', () => {
    const rig = createYawRig({ [S.YAW_INTEGRAL_GAIN]: 2000 });
    rig.rest();
    rig.swing(-4000);
    expect(rig.tick(bend, 100)).toBe(0);
    expect(rig.change).toBe(0);
  });
});

describe('in the core', () => {
  function driven(steer: number, yaw: number, setup: Changes = {}) {
    const constants = plainConstants({
      vehicle: { [V.HAS_CURRENT]: 0, [V.HAS_SUPPLY]: 0, [V.SPEED_LAG_MS]: 50 },
      setups: [
        {
          [S.YAW_AUTHORITY]: 250,
          [S.YAW_GAIN]: 1000,
          [S.YAW_GRIP_MM_S2]: 3000,
          ...setup,
        },
      ],
    });
    const bench = createArmedBench(constants);
    let sign = 1;
    const run = (ticks: number, rate: number, way = 1) => {
      for (let i = 0; i < ticks; i++) {
        bench.step(1, {
          steerUs: pulse(way === 0 ? 0 : steer),
          throttleUs: pulse(way === 0 ? 0 : 820),
          yawRateMradS: rate + sign,
        });
        sign = -sign;
      }
      return bench.outputs;
    };
    run(60, 0, 0);
    for (let rate = 0; rate < yaw; rate += 100) run(1, rate);
    const { assist, cut, drive, flags } = run(120, yaw);
    return { assist, cut, drive, flags: flags & (Flag.ASSIST | Flag.GYRO_DOUBT) };
  }

  it('takes the excess off the cut, and slows the outside motor once that is below zero', () => {
    const { drive, cut, assist, flags } = driven(200, 5000);
    expect(assist).toBe(-250);
    // The table's 160 permille less 250.
    expect(cut).toBeCloseTo(160 - 250, 9);
    expect(drive[0]).toBe(800);
    expect(drive[1]).toBe(728);
    expect(flags).toBe(Flag.ASSIST);
    const shallow = driven(1000, 5000);
    expect(shallow.cut).toBeCloseTo(500 - 250, 9);
    expect([shallow.drive[0], shallow.drive[1]]).toEqual([600, 800]);
  });

  it('never lets a motor pass the demand, whoever keeps it', () => {
    for (const share of [0, 500, 1000]) {
      const { drive } = driven(200, 5000, { [S.MEAN_SHARE]: share });
      expect([drive[0], drive[1]]).toEqual([800, 728]);
    }
  });

  it('leaves a car that turns as it should alone', () => {
    const { assist, cut, flags } = driven(200, 100);
    expect([assist, flags]).toEqual([0, 0]);
    expect(cut).toBeCloseTo(160, 9);
  });

  it('reports a missing gyro, and drives as without', () => {
    const { assist, flags } = driven(200, MISSING - 1);
    expect(assist).toBe(0);
    expect(flags & Flag.GYRO_DOUBT).toBe(Flag.GYRO_DOUBT);
  });
});

it('believes no gyro after a setup without authority, under which nobody watched it', () => {
  const constants = plainConstants({
    vehicle: { [V.CURVATURE]: 2000 },
    setups: [{ [S.YAW_AUTHORITY]: 300, [S.YAW_GAIN]: 500, [S.YAW_GRIP_MM_S2]: 5000 }],
  });
  const [setup] = constants.setups as [number[]];
  const assist = createYawAssist(constants.vehicle);
  assist.load(setup);
  const run = (rate: number, demand: number, still: number) =>
    assist.run(rate, demand, demand, 1000, still, 10, 10);
  for (let i = 0; i < 300; i++) assist.run((i % 3) - 1, 0, 0, 0, 1, 10, 10);
  for (let i = 0; i < 30; i++) run(6000 + (i % 3), 500, 0);
  expect(assist.change).toBeLessThan(0);
  assist.load(setup.map((word, i) => (i === S.YAW_AUTHORITY ? 0 : word)));
  for (let i = 0; i < 500; i++) run(MISSING, 500, 0);
  assist.load(setup);
  for (let i = 0; i < 100; i++) {
    run(MISSING, 500, 0);
    expect(assist.change).toBeCloseTo(0, 9);
  }
});

it('takes the speed from wheel sensors where no current is measured', () => {
  const constants = plainConstants({
    vehicle: {
      [V.HAS_GYRO]: 1,
      [V.HAS_CURRENT]: 0,
      [V.HAS_WHEEL_SPEED]: 1,
      [V.EMF_UV]: 1600,
      [V.TOP_SPEED_MM_S]: 4500,
      [V.WHEEL_UM_DEG]: 454,
      [V.CURVATURE]: 2000,
    },
    setups: [{ [S.YAW_AUTHORITY]: 300, [S.YAW_GAIN]: 500, [S.YAW_GRIP_MM_S2]: 5000 }],
  });
  const { inputs, outputs, step } = createArmedBench(constants);
  for (let i = 0; i < 200; i++) step(1, { yawRateMradS: (i % 3) - 1, wheelDegS: [0, 0, 0, 0] });
  // At 0.5 m/s and half lock the geometry asks for 0.5 rad/s.
  const wheel = Math.round((500 * 1000) / 454);
  inputs.throttleUs = pulse(800);
  inputs.steerUs = pulse(500);
  for (let i = 0; i < 200; i++) {
    const sign = outputs.steer < 0 ? -1 : 1;
    step(1, { yawRateMradS: sign * (1200 + (i % 3)), wheelDegS: [wheel, wheel, 0, 0] });
  }
  // By the command it would be far faster, and allowed as much by the floor's grip.
  expect(outputs.assist).toBeLessThan(-50);
});
