import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findManoeuvre } from '../../harness/manoeuvres/find-manoeuvre.ts';
import type { DriverView, ManoeuvreCar, Sticks } from '../../harness/manoeuvres/manoeuvre.ts';
import { MANOEUVRES } from '../../harness/manoeuvres/manoeuvres.ts';
import { bendRadius, bendSpeed, wideRadius } from '../../harness/manoeuvres/sizes.ts';
import { METRIC_IDS } from '../../harness/metrics/metric.ts';
import { evenGround } from '../../harness/plant/ground.ts';
import { UserError } from '../../harness/problems.ts';
import { reference, trackedReference } from './reference.ts';

const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Any model from 1:24 to 1:5 on any floor. */
const cars: fc.Arbitrary<ManoeuvreCar> = fc
  .record({
    layout: fc.constantFrom('single', 'pair', 'twoPairs', 'tracked'),
    wheelbase: within(0.1, 0.5),
    front: within(0.3, 0.7),
    long: within(1.2, 1.7),
    slim: within(0.4, 0.7),
    lock: within(0.25, 0.8),
    topSpeed: within(0.4, 12),
    friction: within(0.1, 1.3),
  })
  .map(({ wheelbase, front, long, slim, ...rest }) => ({
    ...rest,
    wheelbase,
    cgToFront: front * wheelbase,
    length: long * wheelbase,
    width: slim * long * wheelbase,
    track: 0.8 * slim * long * wheelbase,
  }));

describe('every manoeuvre', () => {
  test('that tracks can drive speaks of nothing that they have not', () => {
    const { car } = trackedReference('grippy');
    const open = MANOEUVRES.filter(({ refuses }) => refuses?.(car) === undefined);
    expect(open.length).toBeGreaterThan(5);
    for (const { name, title, meaning } of open) {
      expect(`${title} ${meaning}`, name).not.toMatch(/front wheel/);
    }
  });

  test('has a name of its own for the command line, and is described', () => {
    const names = MANOEUVRES.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { name, title, source, meaning } of MANOEUVRES) {
      expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(title.length, name).toBeGreaterThan(10);
      expect(meaning, name).toMatch(/\.$/);
      // A standard is told from memory, and what is no standard says so.
      expect(source, name).toMatch(/from memory|no source|Our own/);
    }
  });

  test('is driven for metrics that exist', () => {
    for (const { name, headline } of MANOEUVRES) {
      expect(headline.length, name).toBeGreaterThan(2);
      expect(new Set(headline).size, name).toBe(headline.length);
      for (const id of headline) expect(METRIC_IDS, name).toContain(id);
    }
  });

  test('keeps its times in order and ends, whatever the car', () => {
    fc.assert(
      fc.property(cars, fc.constantFrom(...MANOEUVRES), (car, manoeuvre) => {
        const end = manoeuvre.durationS(car);
        expect(end).toBeGreaterThan(1);
        // The longest is a slalom of a car of 85 cm that reaches 0.4 m/s.
        expect(end).toBeLessThan(120);
        const action = manoeuvre.actionS?.(car) ?? 0;
        expect(action).toBeGreaterThanOrEqual(0);
        expect(action).toBeLessThan(end);
        for (const span of [manoeuvre.steady?.(car), manoeuvre.sweep?.(car)]) {
          if (span === undefined) continue;
          expect(span.fromS).toBeGreaterThanOrEqual(action);
          expect(span.toS).toBeGreaterThan(span.fromS);
          expect(span.toS).toBeLessThanOrEqual(end + 1e-9);
        }
        for (const { atS } of manoeuvre.faults?.(car) ?? []) {
          expect(atS).toBeGreaterThan(0);
          expect(atS).toBeLessThan(end);
        }
        for (const { fromX, toX, right, left } of manoeuvre.course?.(car) ?? []) {
          expect(toX).toBeGreaterThan(fromX);
          expect(left - right).toBeGreaterThan(car.width);
        }
      }),
    );
  });

  test('keeps the sticks within their ends, whatever its driver sees', () => {
    const view: fc.Arbitrary<Omit<DriverView, 't'>> = fc.record({
      x: within(-50, 50),
      y: within(-50, 50),
      yaw: within(-20, 20),
      vx: within(-20, 20),
      vy: within(-20, 20),
      yawRate: within(-40, 40),
    });
    const views = fc.array(fc.tuple(within(0, 1), view), { minLength: 1, maxLength: 40 });
    fc.assert(
      fc.property(cars, fc.constantFrom(...MANOEUVRES), views, (car, manoeuvre, seen) => {
        const driver = manoeuvre.createDriver(car);
        const sticks = {} as Sticks;
        let t = 0;
        for (const [pause, each] of seen) {
          driver.drive({ ...each, t }, sticks);
          t += pause;
          expect(Math.abs(sticks.throttle)).toBeLessThanOrEqual(1);
          expect(Math.abs(sticks.steer)).toBeLessThanOrEqual(1);
          expect(typeof sticks.linkUp).toBe('boolean');
        }
      }),
      { numRuns: 500 },
    );
  });

  test('is refused with a reason where the car has not what it takes', () => {
    const { car } = reference('slippery');
    const refused = (each: ManoeuvreCar) =>
      MANOEUVRES.filter((manoeuvre) => manoeuvre.refuses?.(each)).map(({ name }) => name);
    expect(refused(car)).toEqual(['pivot-turn']);
    expect(refused(trackedReference('slippery').car)).toEqual([
      'constant-radius',
      'constant-steer',
      'constant-speed',
      'step-steer',
      'sine-steer',
      'lift-off',
      'slalom',
      'lane-change',
    ]);
  });
});

describe('sizes', () => {
  const { car } = reference('grippy');
  const tightest = car.wheelbase / Math.tan(car.lock);

  test('of the bend: 12 wheelbases, the room there is, power to spare, room to steer', () => {
    const fast = { ...car, topSpeed: 20 };
    expect(bendRadius(fast)).toBeCloseTo(12 * car.wheelbase, 12);
    expect(bendRadius({ ...fast, wheelbase: 0.4 })).toBe(3.5);
    const slow = { ...car, topSpeed: 4 };
    expect(bendRadius(slow)).toBeCloseTo((0.7 * 4) ** 2 / (0.9 * 9.81), 12);
    expect(bendRadius({ ...car, topSpeed: 0.5 })).toBeCloseTo(1.5 * tightest, 12);
    expect(wideRadius(fast)).toBe(3.5);
    expect(wideRadius({ ...fast, wheelbase: 0.05 })).toBeCloseTo(46 * 0.05, 12);
  });

  test('of the speed in it: the share of the grip, no more than 70 % of the no-load speed', () => {
    const fast = { ...car, topSpeed: 20 };
    expect(bendSpeed(fast, 0.5) ** 2 / bendRadius(fast)).toBeCloseTo(0.5 * 0.9 * 9.81, 12);
    expect(bendSpeed({ ...car, topSpeed: 1 }, 0.95)).toBeCloseTo(0.7, 12);
  });

  test('of the obstacle course in full size: ISO 3888-2 (from memory)', () => {
    const full = { ...car, length: 4.5, width: 1.8, wheelbase: 2.7, topSpeed: 50 };
    const gates = findManoeuvre('lane-change').course!(full);
    const start = gates[0]!.fromX;
    expect(gates.map(({ fromX }) => fromX - start)).toEqual(
      [0, 25.5, 49].map((x) => expect.closeTo(x, 9)),
    );
    expect(gates.map(({ fromX, toX }) => toX - fromX)).toEqual(
      [12, 11, 12].map((x) => expect.closeTo(x, 9)),
    );
    // 1.1 widths + 0.25 m, width + 1 m, 1.3 widths + 0.25 m but at least 3 m.
    expect(gates.map(({ left, right }) => left - right)).toEqual(
      [2.23, 2.8, 3].map((x) => expect.closeTo(x, 9)),
    );
    expect(gates[1]!.right - gates[0]!.left).toBeCloseTo(1, 9);
    expect(gates[2]!.right).toBe(gates[0]!.right);
  });

  test('of the slalom in full size: six cones 18 m apart, left and right in turn', () => {
    const full = { ...car, length: 4.5, width: 1.8, wheelbase: 2.7, topSpeed: 50 };
    const cones = findManoeuvre('slalom').course!(full);
    const middles = cones.map(({ fromX, toX }) => (fromX + toX) / 2);
    for (let i = 1; i < 6; i++) expect(middles[i]! - middles[i - 1]!).toBeCloseTo(18, 9);
    expect(cones.map(({ left }) => left === Infinity)).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
    ]);
  });
});

describe('ground', () => {
  const { base } = reference('slippery').description.ground;

  test('of the split start: the surface on the left, 40 % of its friction on the right', () => {
    const ground = findManoeuvre('split-start').ground!(evenGround(base));
    expect(ground.patches[0]!.material.friction).toBe(base.friction);
    expect(ground.base.friction).toBeCloseTo(0.4 * base.friction, 12);
  });

  test('of the hill: 20 %, less where the floor holds less', () => {
    const rise = (friction: number) =>
      Math.tan(findManoeuvre('hill').ground!(evenGround({ ...base, friction })).gradient);
    expect(rise(0.8)).toBeCloseTo(0.2, 12);
    expect(rise(0.3)).toBeCloseTo(0.12, 12);
  });
});

describe('finding a manoeuvre', () => {
  test('by its name', () => {
    for (const manoeuvre of MANOEUVRES) expect(findManoeuvre(manoeuvre.name)).toBe(manoeuvre);
  });

  test('a wrong name gets the nearest one, or all of them', () => {
    expect(() => findManoeuvre('lanechange')).toThrow(UserError);
    expect(() => findManoeuvre('lanechange')).toThrow(
      /--manoeuvre: .*Did you mean "lane-change"\?/,
    );
    expect(() => findManoeuvre('xyz')).toThrow(/"launch-circle", .*"jam"/);
  });
});
