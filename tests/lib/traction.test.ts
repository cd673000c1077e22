import { describe, expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { Cause, Found, Reaction } from '../../lib/codes.ts';
import { Flag, MISSING, S, State, V, VEHICLE_LIMITS } from '../../lib/index.ts';
import { createMotorGuard } from '../../lib/motor-guard.ts';
import { createReactions } from '../../lib/reactions.ts';
import { createTraction } from '../../lib/traction.ts';
import { createWindings } from '../../lib/winding.ts';
import { SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';
import { speedInGrip, warmOhm } from './grip.ts';

// A closed-form vehicle: V d = R i + K v with the core's own constants, so what it tells is known.

const hatch = bake(vehicleOf(SAMPLES.hatch), [setupOf({ name: 'a', surface: 'b' })]);
const { vehicle } = hatch;
const setup = hatch.setups[0]!;
const TICK = 10;
const MV = 7400;
const EMF = vehicle[V.EMF_UV]!;
const OHM = warmOhm(vehicle);

interface Rig {
  /** One tick at these speeds of the tyres, mm/s, under these commands, permille. */
  tick(speeds: [number, number], drive: [number, number], more?: Partial<Extra>): void;
  traction: ReturnType<typeof createTraction>;
  goal: number[];
}

interface Extra {
  currentMa: number[];
  steer: number;
  state: number;
}

function rig(words: readonly number[] = setup): Rig {
  const traction = createTraction(vehicle, createWindings(vehicle));
  traction.load([...words]);
  const goal = [0, 0, 0, 0];
  return {
    traction,
    goal,
    tick(speeds, drive, more = {}) {
      const own = drive.map((d, m) => Math.round((MV * d - EMF * speeds[m]!) / OHM));
      goal.splice(0, 4, drive[0], drive[1], 0, 0);
      const { currentMa = [...own, 0, 0], steer = 0, state = State.DRIVING } = more;
      const armed = state === State.READY || state === State.DRIVING;
      const enable = armed ? 1 : 0;
      traction.run(goal, [...drive, 0, 0], MV, currentMa, [], steer, armed, enable, TICK, TICK);
    },
  };
}

/** Drives a start in grip: what the currents push is what the vehicle gains. */
function start(to: Rig, seconds: number, sign = 1): number {
  let speed = 0;
  for (let i = 0; i < (seconds * 1000) / TICK; i++) {
    const drive = Math.min(600, 4 * i);
    to.tick([sign * speed, sign * speed], [sign * drive, sign * drive]);
    const current = (MV * drive - EMF * speed) / OHM;
    speed = speedInGrip(vehicle, speed, [current, current], TICK);
  }
  return sign * speed;
}

describe('speed over ground', () => {
  test.each([1, -1])('follows a start in grip within 2 %%, direction %d', (sign) => {
    const own = rig();
    const speed = start(own, 1.5, sign);
    expect(Math.abs(speed)).toBeGreaterThan(1500);
    expect(Math.abs(own.traction.ground.speed / speed - 1)).toBeLessThan(0.02);
    expect(own.traction.found).toBe(0);
  });

  test('is held, and says so, while nothing tells it', () => {
    const own = rig();
    start(own, 1.5);
    const before = own.traction.ground.speed;
    own.goal.fill(0);
    const none = [MISSING, MISSING, 0, 0];
    const flags = own.traction.run(own.goal, [0, 0, 0, 0], MV, none, [], 0, true, 1, TICK, TICK);
    expect(flags & Flag.SPEED_HELD).toBe(Flag.SPEED_HELD);
    expect(own.traction.ground.speed).toBeGreaterThan(0.9 * before);
  });
});

test('the greatest lead of the outside wheel leaves the inside one a speed to tell by', () => {
  const tight = [...vehicle];
  tight[V.SIDE_LEAD] = VEHICLE_LIMITS[2 * V.SIDE_LEAD + 1]!;
  tight[V.CURVATURE] = 0;
  tight[V.HAS_WHEEL_SPEED] = 1;
  const traction = createTraction(tight, createWindings(tight));
  traction.load([...setup]);
  const goal = [100, 100, 0, 0];
  for (const steer of [1000, -1000]) {
    traction.run(goal, goal, MV, [0, 0, 0, 0], [0, 0], steer, true, 1, TICK, TICK);
    expect(traction.ground.speed).toBe(0);
  }
});

describe('findings', () => {
  test('spin: a minute at rest hides no spin in the start that follows', () => {
    const ticksAfter = (restS: number) => {
      const own = rig();
      const speed = start(own, 1);
      for (let i = 0; i < 200; i++)
        own.tick([speed * (1 - i / 200), speed * (1 - i / 200)], [0, 0]);
      for (let i = 0; i < restS * 100; i++) own.tick([0, 0], [0, 0]);
      let ticks = 0;
      while (ticks < 60 && own.traction.found === 0) {
        ticks++;
        const wheel = Math.min(3000, 80 * ticks);
        own.tick([wheel, wheel], [Math.min(900, 40 * ticks), Math.min(900, 40 * ticks)]);
      }
      return ticks;
    };
    expect(ticksAfter(0)).toBeLessThan(20);
    expect(ticksAfter(60)).toBeLessThan(20);
  });

  test('spin: a wheel that gains 12 m/s² after a start is found within 150 ms, and let go', () => {
    const own = rig();
    const speed = start(own, 1);
    let ticks = 0;
    for (; ticks < 20 && own.traction.found === 0; ticks++)
      own.tick([speed, speed + 120 * (ticks + 1)], [700, 700 + 20 * ticks]);
    expect(own.traction.found).toBe(Found.SPIN << 1);
    expect(ticks * TICK).toBeLessThanOrEqual(150);
    expect(own.traction.spin).toBeGreaterThanOrEqual(500);
    expect([own.traction.free, own.traction.jam]).toEqual([0, 0]);
    for (let i = 0; i < 200; i++) own.tick([speed, speed], [620, 620]);
    expect(own.traction.found).toBe(0);
  });

  test('free: a motor at no-load beside a loaded one is found within 300 ms, and latches', () => {
    const own = rig();
    const speed = start(own, 1.5);
    const idle = vehicle[V.NO_LOAD_MA]!;
    let ticks = 0;
    for (; ticks < 60 && (own.traction.found & (Found.FREE << 1)) === 0; ticks++) {
      const free = (MV * 600 - OHM * idle) / EMF;
      own.tick([speed, free], [600, 600]);
    }
    expect(ticks * TICK).toBeLessThanOrEqual(300);
    for (let i = 0; i < 300; i++) own.tick([speed, speed], [600, 600]);
    expect(own.traction.found & (Found.FREE << 1)).not.toBe(0);
    own.tick([0, 0], [0, 0], { state: State.LOCKED });
    own.tick([0, 0], [0, 0], { state: State.READY });
    for (let i = 0; i < 200; i++) own.tick([0, 0], [0, 0]);
    expect(own.traction.found).toBe(0);
  });

  test('free: told once is forgotten by arming anew, whatever was seen before', () => {
    const words = [...setup];
    words[S.FREE_REACTION] = Reaction.STOP;
    const own = rig(words);
    const speed = start(own, 1.5);
    const free = (MV * 600 - OHM * vehicle[V.NO_LOAD_MA]!) / EMF;
    for (let i = 0; i < 60; i++) own.tick([speed, free], [600, 600]);
    expect(own.traction.fault).toBe(Cause.DRIVE_LOST);
    own.tick([0, 0], [0, 0], { state: State.FAULT });
    for (let i = 0; i < 20; i++) {
      own.tick([0, 0], [0, 0], { state: State.READY });
      const lost = own.traction.found & (Found.FREE | (Found.FREE << 1));
      expect([lost, own.traction.fault]).toEqual([0, Cause.NONE]);
    }
  });

  test('free: its motor runs ahead, and no spin is told or reacted to for it', () => {
    const words = [...setup];
    words[S.FREE_REACTION] = Reaction.REPORT;
    words[S.SPIN_REACTION] = Reaction.STOP;
    const own = rig(words);
    const speed = start(own, 1.5);
    const free = (MV * 600 - OHM * vehicle[V.NO_LOAD_MA]!) / EMF;
    for (let i = 0; i < 60; i++) own.tick([speed, free], [600, 600]);
    expect(own.traction.found).toBe(Found.FREE << 1);
    // A slipped shaft that still drags a little.
    const pull = 3 * vehicle[V.CURRENT_ERROR_MA]!;
    const thrust = Math.round((MV * 600 - EMF * speed) / OHM) + 1500;
    for (let i = 0; i < 60; i++) {
      own.tick([speed, free], [600, 600], { currentMa: [thrust, pull, 0, 0] });
      expect(own.traction.found & (Found.SPIN << 1)).toBe(0);
      expect(own.traction.fault).not.toBe(Cause.WHEEL_SPIN);
    }
  });

  test('free: what was seen while it was off counts for nothing', () => {
    const words = [...setup];
    words[S.FREE_REACTION] = Reaction.OFF;
    const own = rig(words);
    const speed = start(own, 1);
    const free = (MV * 600 - OHM * vehicle[V.NO_LOAD_MA]!) / EMF;
    for (let i = 0; i < 90; i++) own.tick([speed, free], [600, 600]);
    own.traction.load([...setup]);
    own.tick([0, 0], [0, 0]);
    expect(own.traction.found & (Found.FREE | (Found.FREE << 1))).toBe(0);
  });

  test.each([0, 1])('jam: motor %d held fast under way is found within 100 ms', (m) => {
    const own = rig();
    const speed = start(own, 1);
    let ticks = 0;
    for (; ticks < 60 && (own.traction.found & (Found.JAM << m)) === 0; ticks++)
      own.tick(m === 0 ? [0, speed] : [speed, 0], [600, 600]);
    expect(ticks * TICK).toBeLessThanOrEqual(100);
  });

  test.each([
    [0, 1],
    [1, 1],
    [0, -1],
    [1, -1],
  ])('jam: motor %d held fast from rest is found before heat and stall time, way %d', (m, way) => {
    const own = rig();
    const guard = createMotorGuard(vehicle);
    const force = vehicle[V.THRUST_MN_A]! / 1000;
    const mass = vehicle[V.MASS_G]! + 2 * vehicle[V.ROTATING_G]!;
    let speed = 0;
    let drivenMs = 0;
    let foundMs = Infinity;
    let stalledMs = Infinity;
    for (let i = 0; i < 150; i++) {
      const drive = Math.min(600, 8 * i);
      const free = (MV * drive - EMF * speed) / OHM;
      const pull = force * (free + (MV * drive) / OHM);
      const speeds: [number, number] = m === 0 ? [0, speed] : [speed, 0];
      const ma = speeds.map((v) => Math.round((way * (MV * drive - EMF * v)) / OHM));
      own.tick([way * speeds[0], way * speeds[1]], [way * drive, way * drive]);
      const last = [way * drive, way * drive, 0, 0];
      guard.run([...ma, 0, 0], last, [...last], MV, TICK);
      if (drive >= 300) drivenMs += TICK;
      if ((own.traction.found & (Found.JAM << m)) !== 0) foundMs = Math.min(foundMs, drivenMs);
      if (guard.fault() !== Cause.NONE || (guard.flags & Flag.HEAT_LIMIT) !== 0)
        stalledMs = Math.min(stalledMs, drivenMs);
      speed += (Math.max(0, pull / 2 - vehicle[V.DRAG_MN]!) * TICK) / mass;
    }
    expect(foundMs).toBeLessThanOrEqual(250);
    expect(stalledMs).toBeLessThan(Infinity);
    expect(foundMs).toBeLessThan(stalledMs);
  });

  test.each([-300, -500, -800])('no jam: braking into reverse at %d permille', (drive) => {
    const own = rig();
    let speed = start(own, 1.5);
    const force = vehicle[V.THRUST_MN_A]! / 1000;
    const drag = vehicle[V.DRAG_MN]! + 2 * force * vehicle[V.NO_LOAD_MA]!;
    const mass = vehicle[V.MASS_G]! + 2 * vehicle[V.ROTATING_G]!;
    for (let i = 0; i < 200; i++) {
      own.tick([speed, speed], [drive, drive]);
      expect(own.traction.found & (Found.JAM | (Found.JAM << 1))).toBe(0);
      const push = (2 * force * (MV * drive - EMF * speed)) / OHM;
      speed += ((push - drag * Math.sign(speed)) * TICK) / mass;
    }
    expect(speed).toBeLessThan(0);
  });

  test.each([0.3, 0.5])(
    'no jam: drag that lets wheels turn at %f of their no-load speed',
    (share) => {
      const own = rig();
      let speed = 0;
      for (let i = 0; i < 400; i++) {
        const drive = Math.min(400, 8 * i);
        speed += ((share * MV * drive) / EMF - speed) / 10;
        own.tick([speed, speed], [drive, drive]);
        expect(own.traction.found & (Found.JAM | (Found.JAM << 1))).toBe(0);
      }
    },
  );

  test('a lost current sensor takes the evidence of its motor along', () => {
    const own = rig();
    const speed = start(own, 1);
    for (let i = 0; i < 40; i++)
      own.tick([0, speed], [600, 600], {
        currentMa: [MISSING, Math.round((MV * 600 - EMF * speed) / OHM), 0, 0],
      });
    expect(own.traction.found).toBe(0);
  });

  test('nothing is looked for where the setup says off', () => {
    const words = [...setup];
    for (const index of [S.SPIN_REACTION, S.FREE_REACTION, S.JAM_REACTION])
      words[index] = Reaction.OFF;
    const own = rig(words);
    const speed = start(own, 1);
    for (let i = 0; i < 100; i++) own.tick([0, speed], [600, 600]);
    expect(own.traction.found).toBe(0);
  });
});

test('a stall that began counts on while samples are missing', () => {
  const offAfter = (every: number) => {
    const guard = createMotorGuard(vehicle);
    let ms = 0;
    for (; ms < 20_000 && guard.fault() === Cause.NONE; ms += TICK) {
      const seen = (ms / TICK) % every === 0;
      const ma = seen ? Math.round((MV * 400) / vehicle[V.MOTOR_MOHM]!) : MISSING;
      guard.run([ma, 0, 0, 0], [400, 0, 0, 0], [400, 0, 0, 0], MV, TICK);
    }
    return ms;
  };
  expect(offAfter(10)).toBeLessThanOrEqual(offAfter(1) + TICK);
});

test('a stalled motor that was let go is ready again, though its sensor died', () => {
  const guard = createMotorGuard(vehicle);
  const ma = Math.round((MV * 400) / vehicle[V.MOTOR_MOHM]!);
  const none = [0, 0, 0, 0];
  const tick = (sample: number, drive: number) =>
    guard.run([sample, 0, 0, 0], [drive, 0, 0, 0], [drive, 0, 0, 0], MV, TICK);
  for (let i = 0; i < 200; i++) tick(ma, 400);
  expect(guard.fault()).toBe(Cause.STALLED);
  for (let i = 0; i < 200; i++) guard.run([MISSING, 0, 0, 0], none, none, MV, TICK);
  expect(guard.fault()).toBe(Cause.NONE);
});

describe('mirrored input, mirrored findings', () => {
  test('to the last bit', () => {
    const [left, right] = [rig(), rig()];
    let seed = 1;
    const next = (span: number) => {
      seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
      return (seed % (2 * span)) - span;
    };
    for (let i = 0; i < 4000; i++) {
      const phase = Math.floor(i / 60) % 5;
      const a = phase * 200 + next(40);
      const b = phase * 200 + next(40);
      const ma = [phase * 900 + next(1500), phase * 900 + next(1500)];
      const steer = next(1000);
      left.tick([0, 0], [a, b], { currentMa: [ma[0]!, ma[1]!, 0, 0], steer });
      right.tick([0, 0], [b, a], { currentMa: [ma[1]!, ma[0]!, 0, 0], steer: -steer });
      const found = left.traction.found;
      const swapped = ((found & 0x555) << 1) | ((found & 0xaaa) >> 1);
      expect(right.traction.found).toBe(swapped);
      expect(right.traction.ground.speed).toBe(left.traction.ground.speed);
      expect(right.goal[0]).toBe(left.goal[1]);
    }
  });
});

describe('reactions', () => {
  const kinds = [Reaction.REPORT, Reaction.TRIM, Reaction.RAMP, Reaction.LIMP, Reaction.STOP];

  test('never raise a magnitude, and keep the ratio of a pair', () => {
    for (const spin of kinds) {
      const words = [...setup];
      words[S.SPIN_REACTION] = spin;
      const reactions = createReactions(vehicle);
      reactions.load(words);
      for (let i = 0; i < 300; i++) {
        const goal = [900, -600, 0, 0];
        reactions.run(goal, i % 100 < 20 ? 1 : 0, 0, 0, TICK);
        expect(goal[0]).toBeLessThanOrEqual(900);
        expect(goal[0]).toBeGreaterThanOrEqual(0);
        expect(goal[1]).toBeGreaterThanOrEqual(-600);
        expect(goal[0]! * -600).toBeCloseTo(goal[1]! * 900, 6);
      }
    }
  });

  test('"cut" comes back over its time, "limp" stays until it is cleared', () => {
    const words = [...setup];
    words[S.SPIN_REACTION] = Reaction.RAMP;
    words[S.FREE_REACTION] = Reaction.LIMP;
    const reactions = createReactions(vehicle);
    reactions.load(words);
    const drive = (spin: number, free: number) => {
      const goal = [1000, 1000, 0, 0];
      reactions.run(goal, spin, free, 0, TICK);
      return goal[0]!;
    };
    expect(drive(1, 0)).toBe(0);
    const back = Array.from({ length: words[S.RAMP_MS]! / TICK }, () => drive(0, 0));
    expect(back.at(-1)).toBeCloseTo(1000, 6);
    expect(back[29]).toBeCloseTo(500, 6);
    expect(drive(0, 1)).toBe(words[S.LIMP_CAP]);
    expect(drive(0, 0)).toBe(words[S.LIMP_CAP]);
    reactions.clear();
    expect(drive(0, 0)).toBe(1000);
  });
});
