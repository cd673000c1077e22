import { describe, expect, test } from 'vitest';
import { createCruise, settleTime, settleWay } from '../../harness/manoeuvres/cruise.ts';
import { circlePath, createFollow } from '../../harness/manoeuvres/follow.ts';
import type { Manoeuvre, ManoeuvreCar } from '../../harness/manoeuvres/manoeuvre.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { sampleManoeuvre } from '../metrics/sample-car.ts';
import published from '../published/scale-car-1-10.json' with { type: 'json' };
import type { SingleTrack } from '../published/single-track-model.ts';
import { driveLinearCar } from './linear-car.ts';
import { reference } from './reference.ts';
import { driveManoeuvre } from './rig.ts';

const p = published.parameters;
/** A linear car of the 1:10 set, its front tyres as stiff as asked for. */
const model = (front: number): SingleTrack => ({
  mu: p.mu,
  stiffnessFront: front * p.C_Sf,
  stiffnessRear: p.C_Sr,
  lf: p.lf,
  lr: p.lr,
  h: 0,
  m: p.m,
  inertia: p.I,
  steeringRate: [p.sv_min, p.sv_max],
  steering: [p.s_min, p.s_max],
  speed: [p.v_min, p.v_max],
  switchSpeed: p.v_switch,
  acceleration: p.a_max,
});
const car: ManoeuvreCar = {
  layout: 'pair',
  wheelbase: p.lf + p.lr,
  track: 0.25,
  cgToFront: p.lf,
  length: p.length,
  width: p.width,
  lock: p.s_max,
  topSpeed: 8,
  friction: p.mu,
};

/** Keeps a speed, and a circle if there is one. */
function drill(speed: number, of: ManoeuvreCar, radius?: number, learning = 0.15): Manoeuvre {
  return sampleManoeuvre({
    durationS: () => 12,
    createDriver: () => {
      const cruise = createCruise(of);
      const follow = createFollow(of, circlePath(radius ?? 1), 4 * of.wheelbase, learning);
      return {
        drive: (view, sticks) => {
          cruise.keep(speed, view);
          follow.watch(view);
          sticks.throttle = cruise.throttle;
          sticks.steer = radius === undefined ? 0 : follow.steer;
          sticks.linkUp = true;
        },
      };
    },
  });
}

function at(trace: Trace, column: Float64Array, t: number): number {
  return column[trace.t.findIndex((time) => time >= t - 1e-9)]!;
}

describe('the foot that keeps a speed', () => {
  test.each([
    { floor: 'slippery' as const, speed: 1 },
    { floor: 'slippery' as const, speed: 3 },
    { floor: 'grippy' as const, speed: 3 },
  ])('brings the reference car to $speed m/s in time, $floor floor', ({ floor, speed }) => {
    const { description, car: own } = reference(floor);
    const trace = driveManoeuvre(drill(speed, own), description, own);
    const settled = settleTime(own, speed);
    expect(Math.abs(at(trace, trace.vx, settled) / speed - 1)).toBeLessThan(0.03);
    expect(Math.abs(at(trace, trace.x, settled) / settleWay(own, speed) - 1)).toBeLessThan(0.03);
    expect(Math.abs(at(trace, trace.vx, 12) / speed - 1)).toBeLessThan(0.001);
    expect(Math.max(...trace.vx) / speed - 1).toBeLessThan(0.06);
    expect(Math.min(...trace.throttleStick)).toBeGreaterThanOrEqual(0);
    // No wheel breaks loose on the way.
    for (const slip of trace.slipRatio) expect(Math.max(...slip.subarray(20))).toBeLessThan(0.1);
  });

  test('asked for more than the car has, it gives all, and comes back without delay', () => {
    const cruise = createCruise(car);
    const view = { t: 0, x: 0, y: 0, yaw: 0, vx: 8, vy: 0, yawRate: 0 };
    for (; view.t < 20; view.t += 0.01) cruise.keep(99, view);
    expect(cruise.throttle).toBe(1);
    // What it wants falls by 0.3 friction g; without windup the stick is off within that time.
    const falls = (99 - 7) / (0.3 * car.friction * 9.81);
    for (const end = view.t + falls + 0.1; view.t < end; view.t += 0.01) cruise.keep(1, view);
    expect(cruise.throttle).toBe(0);
  });
});

describe('the hands that follow a line', () => {
  test.each([
    { name: 'understeering', front: 0.8 },
    { name: 'as it is', front: 1 },
    { name: 'oversteering a little', front: 1.1 },
  ])('keep the linear car on a circle of 2.5 m within 1 %, $name', ({ front }) => {
    const trace = driveLinearCar(drill(3, car, 2.5), model(front), car);
    const radii = Array.from(trace.x, (x, i) => Math.hypot(x, trace.y[i]! - 2.5));
    expect(Math.max(...radii.slice(-200).map((r) => Math.abs(r / 2.5 - 1)))).toBeLessThan(0.01);
  });

  test('without learning they stay off by what slip takes; learning closes that gap', () => {
    const off = (learning: number) => {
      const trace = driveLinearCar(drill(4, car, 2.5, learning), model(0.7), car);
      return Math.hypot(trace.x.at(-1)!, trace.y.at(-1)! - 2.5) - 2.5;
    };
    expect(off(0)).toBeGreaterThan(0.1);
    expect(Math.abs(off(0.15))).toBeLessThan(off(0) / 5);
  });

  const on = { t: 0, x: 0, y: 0, yaw: 0, vx: 3, vy: 0, yawRate: 0 };

  test('without slip they steer Ackermann’s angle on the circle', () => {
    const [radius, ahead] = [10, 0.5];
    const follow = createFollow(car, circlePath(radius), ahead, 0);
    follow.watch(on);
    // The way to the circle from a point on its tangent is d² / 2R but for (d / 2R)².
    expect(follow.steer * car.lock).toBeCloseTo(car.wheelbase / radius, 4);
  });

  test('they learn 4 L / d³ rad for each metre driven a metre off the line', () => {
    const [ahead, learning, off] = [0.7, 0.3, 0.02];
    const straight = { offset: (_: number, y: number) => -y };
    const follow = createFollow(car, straight, ahead, learning);
    follow.watch({ ...on, y: -off });
    const first = follow.steer;
    for (let i = 1; i <= 100; i++) follow.watch({ ...on, y: -off, t: i / 100 });
    const learnt = ((learning * 4 * car.wheelbase) / ahead ** 3) * off * on.vx * 1;
    expect(first * car.lock).toBeCloseTo((2 * car.wheelbase * off) / ahead ** 2, 9);
    expect((follow.steer - first) * car.lock).toBeCloseTo(learnt, 9);
  });

  test('they learn nothing while the steering is at its end, or the car stands', () => {
    const follow = createFollow(car, circlePath(2.5), 1.3, 0.15);
    const fresh = createFollow(car, circlePath(2.5), 1.3, 0.15);
    for (let t = 0; t < 10; t += 0.01) follow.watch({ ...on, t, y: -5 });
    expect(follow.steer).toBe(1);
    for (let t = 10; t < 20; t += 0.01) follow.watch({ ...on, t, y: -0.1, vx: 0 });
    follow.watch({ ...on, t: 20, vx: 0 });
    fresh.watch({ ...on, vx: 0 });
    expect(follow.steer).toBe(fresh.steer);
  });

  test('at the stability limit of learning the car weaves on, beyond it more and more', () => {
    // Slip and ticks cost some margin, so the limit lies somewhat below 1.
    const sway = (learning: number) => {
      const trace = driveLinearCar(drill(1, car, 2.5, learning), model(1), car);
      const off = Array.from(trace.x, (x, i) => Math.hypot(x, trace.y[i]! - 2.5) - 2.5);
      return Math.max(...off.slice(-300)) - Math.min(...off.slice(-300));
    };
    expect(sway(0.15)).toBeLessThan(0.005);
    expect(sway(1.3)).toBeGreaterThan(20 * sway(0.15));
  });
});
