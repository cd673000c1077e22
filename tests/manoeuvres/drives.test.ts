import { describe, expect, test } from 'vitest';
import { findManoeuvre } from '../../harness/manoeuvres/find-manoeuvre.ts';
import type { Sticks } from '../../harness/manoeuvres/manoeuvre.ts';
import { MANOEUVRES } from '../../harness/manoeuvres/manoeuvres.ts';
import { bendRadius, wideRadius } from '../../harness/manoeuvres/sizes.ts';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import { computeVerdict } from '../../harness/metrics/compute-verdict.ts';
import type { MetricId } from '../../harness/metrics/metric.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { reference, trackedReference } from './reference.ts';
import { driveManoeuvre } from './rig.ts';

type Floor = 'slippery' | 'grippy';
const FLOORS: Floor[] = ['slippery', 'grippy'];

function drive(name: string, floor: Floor, cut = 0.1) {
  const manoeuvre = findManoeuvre(name);
  const { description, car } = name === 'pivot-turn' ? trackedReference(floor) : reference(floor);
  const trace = driveManoeuvre(manoeuvre, description, car, cut);
  const metrics = computeMetrics(trace, manoeuvre, car);
  const value = (id: MetricId) => metrics.find((metric) => metric.id === id)?.value ?? Number.NaN;
  return { trace, car, metrics, value, verdict: computeVerdict(trace, manoeuvre, car) };
}

function extent(column: Float64Array): number {
  return Math.max(...column) - Math.min(...column);
}

/**
 * What the rig cannot show: without a core nothing reacts, and it lets a car without signal roll.
 */
const BLIND: Record<string, MetricId[]> = {
  // Its motors are too weak to turn tracks of that length on the grippy floor.
  'pivot-turn': ['turnTime'],
  dropout: ['stoppingTime', 'stoppingDistance'],
  'shaft-slip': ['reactionTime'],
  jam: ['reactionTime', 'stoppingDistance'],
};

describe('the reference car without a core', () => {
  test.each(MANOEUVRES.flatMap(({ name }) => FLOORS.map((floor) => ({ name, floor }))))(
    '$name, $floor: shows what it is driven for, in a hall of 20 m x 12 m',
    ({ name, floor }) => {
      const { trace, metrics } = drive(name, floor);
      for (const id of findManoeuvre(name).headline) {
        if (BLIND[name]?.includes(id)) continue;
        const metric = metrics.find((each) => each.id === id);
        // Left out is only the one of two speeds that the gradient's sign rules out.
        if (metric === undefined) expect(['criticalSpeed', 'characteristicSpeed']).toContain(id);
        else expect(metric.missing, id).toBeUndefined();
      }
      const [long, short] = [extent(trace.x), extent(trace.y)].sort((a, b) => b - a);
      expect(long!).toBeLessThan(20);
      expect(short!).toBeLessThan(12);
    },
  );

  test('the same drive has the same bits', () => {
    for (const name of ['lane-change', 'launch-circle', 'step-steer']) {
      const [a, b] = [drive(name, 'slippery'), drive(name, 'slippery')];
      expect(b.trace).toEqual(a.trace);
      expect(b.metrics).toEqual(a.metrics);
    }
  });
});

describe('steering tests', () => {
  test.each(FLOORS)('the circle is kept up to 40 %% of the grip; %s floor', (floor) => {
    const { trace, car } = drive('constant-radius', floor);
    const radius = bendRadius(car);
    const { fromS } = findManoeuvre('constant-radius').sweep!(car);
    for (let i = 0; i < trace.count; i++) {
      if (trace.t[i]! < fromS || trace.ay[i]! > 0.4 * car.friction * 9.81) continue;
      expect(Math.abs(Math.hypot(trace.x[i]!, trace.y[i]! - radius) / radius - 1)).toBeLessThan(
        0.04,
      );
    }
  });

  test.each(FLOORS)('three ways to the understeer gradient agree within 0.4 °/g; %s', (floor) => {
    const found = ['constant-radius', 'constant-steer', 'constant-speed'].map((name) =>
      drive(name, floor, 0).value('understeerGradientPerG'),
    );
    // Speed, radius and drive forces differ, so the tyres do not do quite the same.
    expect(Math.max(...found) - Math.min(...found)).toBeLessThan(0.4);
  });

  test.each(FLOORS)('a step uses 40 %% of the grip, or what the speed allows; %s', (floor) => {
    const { trace, car, value } = drive('step-steer', floor);
    const end = trace.count - 1;
    const expected = trace.vx[end]! ** 2 / wideRadius(car);
    expect(Math.abs(trace.ay[end]! / expected - 1)).toBeLessThan(0.08);
    expect(expected).toBeLessThan(0.42 * car.friction * 9.81);
    expect(value('yawRateGain')).toBeGreaterThan(0);
  });

  test('a sine ends where it began', () => {
    const { value } = drive('sine-steer', 'grippy');
    expect(value('headingChange')).toBeLessThan(1);
  });

  test.each(FLOORS)('slalom and lane change are clean at their speed; %s floor', (floor) => {
    expect(drive('slalom', floor).value('courseMargin')).toBeGreaterThan(0.02);
    expect(drive('lane-change', floor).value('courseMargin')).toBeGreaterThan(0.003);
  });

  test('after the last cone the slalom comes back to its line', () => {
    const { trace, car } = drive('slalom', 'grippy');
    const last = findManoeuvre('slalom').course!(car).at(-1)!;
    const passed = trace.x.findIndex((x) => x > last.toX);
    expect(Math.max(...trace.y.subarray(passed))).toBeLessThan(0.01);
    expect(Math.abs(trace.y.at(-1)!)).toBeLessThan(0.03);
  });

  test('a driver who looks away hits the first cone', () => {
    const slalom = findManoeuvre('slalom');
    const { description, car } = reference('grippy');
    const blind = {
      ...slalom,
      createDriver: () => {
        const driver = slalom.createDriver(car);
        return {
          drive: (...[view, sticks]: Parameters<typeof driver.drive>) => {
            driver.drive(view, sticks);
            sticks.steer = 0;
          },
        };
      },
    };
    const [margin] = computeMetrics(driveManoeuvre(blind, description, car), slalom, car);
    expect(margin!.value).toBeCloseTo(-car.width / 2 - 0.1 * car.width, 6);
  });
});

/** Common practice, no source: tests/published/common-practice.json. */
describe('full lock and full throttle from rest', () => {
  test('slippery floor, no cut: ploughs', () => {
    const { verdict, value } = drive('launch-circle', 'slippery', 0);
    expect(verdict).toMatchObject({ kind: 'understeer', unit: '' });
    expect(value('radiusRatio')).toBeGreaterThan(2);
  });

  test('slippery floor, 20 % cut: spins', () => {
    expect(drive('launch-circle', 'slippery', 0.2).verdict.kind).toBe('spin');
  });

  test('grippy floor, 20 % cut: does not', () => {
    expect(drive('launch-circle', 'grippy', 0.2).verdict.kind).toBe('understeer');
  });
});

describe('straight drives', () => {
  test('without steering nothing but the ground and a fault turns the car', () => {
    for (const name of ['top-speed', 'brake', 'brake-hard', 'dropout'])
      expect(drive(name, 'slippery').value('sideways'), name).toBe(0);
    expect(drive('split-start', 'slippery').value('sideways')).toBeGreaterThan(0.1);
    expect(drive('shaft-slip', 'slippery').value('headingChange')).toBeGreaterThan(1);
  });

  test('the stick pulled back stops the car sooner than the stick let go', () => {
    const [soft, hard] = ['brake', 'brake-hard'].map((name) =>
      drive(name, 'grippy').value('stoppingDistance'),
    );
    expect(hard!).toBeLessThan(0.8 * soft!);
  });

  test('no stop is shorter than friction allows', () => {
    for (const floor of FLOORS) {
      const { value, car } = drive('brake-hard', floor);
      // Rolling resistance adds 0.02 g to what the tyres hold.
      expect(value('deceleration')).toBeLessThan((car.friction + 0.02) * 9.81);
    }
  });

  test('a jammed wheel stalls its motor and turns the car', () => {
    const { trace, value } = drive('jam', 'slippery');
    expect(value('headingChange')).toBeGreaterThan(20);
    const slip = trace.slipRatio[1]!.subarray(trace.count - 200, trace.count);
    expect(Math.max(...slip.map(Math.abs))).toBeGreaterThan(0.99);
  });

  test('the signal is lost, comes back with the stick forward, then neutral, then forward', () => {
    const { car } = reference('slippery');
    const driver = findManoeuvre('dropout').createDriver(car);
    const sticks: Sticks = { throttle: 0, steer: 0, linkUp: true };
    const at = (t: number) => {
      driver.drive({ t, x: 0, y: 0, yaw: 0, vx: 0, vy: 0, yawRate: 0 }, sticks);
      return { throttle: sticks.throttle, linkUp: sticks.linkUp };
    };
    expect(at(2.9)).toEqual({ throttle: 0.6, linkUp: true });
    for (const t of [3, 4, 5.4]) expect(at(t).linkUp).toBe(false);
    expect(at(5.6)).toEqual({ throttle: 0.6, linkUp: true });
    for (const t of [6.6, 7.9]) expect(at(t)).toEqual({ throttle: 0, linkUp: true });
    expect(at(8.1)).toEqual({ throttle: 0.6, linkUp: true });
  });
});

describe('tracks', () => {
  test('turn on the spot, and get no verdict for it', () => {
    const { value, verdict } = drive('pivot-turn', 'slippery');
    expect(value('turnTime')).toBeLessThan(8);
    expect(value('centreDrift')).toBeLessThan(0.05);
    expect(verdict.kind).toBe('none');
  });
});

test('a trace that broke off keeps what it has', () => {
  const manoeuvre = findManoeuvre('step-steer');
  const { description, car } = reference('grippy');
  const whole = driveManoeuvre(manoeuvre, description, car);
  const short: Trace = { ...whole, count: 100 };
  const metrics = computeMetrics(short, manoeuvre, car);
  expect(metrics.map(({ value }) => value)).toEqual(manoeuvre.headline.map(() => null));
  expect(computeVerdict(short, manoeuvre, car).kind).toBe('none');
});
