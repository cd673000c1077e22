import { describe, expect, test } from 'vitest';
import { constantSteer } from '../../harness/manoeuvres/constant-steer.ts';
import type { Manoeuvre, ManoeuvreCar } from '../../harness/manoeuvres/manoeuvre.ts';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import { emptyTrace } from '../../harness/metrics/empty-trace.ts';
import type { MetricId } from '../../harness/metrics/metric.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { integrate, type SingleTrack, singleTrack } from './single-track-model.ts';
import published from './wong-example-5-1.json' with { type: 'json' };

/**
 * J.Y. Wong, Theory of Ground Vehicles, example 5.1. Data and printed answers FROM MEMORY: weight
 * 20.105 kN, wheelbase 2.8 m, 53.5 % on the front axle, cornering stiffness of each front tyre
 * 38.92 kN/rad (a) or 47.82 kN/rad (b), of each rear tyre 38.25 kN/rad. Moment of inertia and
 * height of the centre of gravity do not matter here.
 */
const G = 9.81;
const weight = 20105;
const wheelbase = 2.8;
const frontShare = 0.535;
const rear = 38250;
const mass = weight / G;
const lf = (1 - frontShare) * wheelbase;
const lr = frontShare * wheelbase;

const car: ManoeuvreCar = {
  layout: 'single',
  wheelbase,
  track: 1.5,
  cgToFront: lf,
  length: 4.5,
  width: 1.8,
  lock: 0.6,
  topSpeed: 60,
  friction: 1,
};

const SWEEP_S = 60;
const manoeuvre: Manoeuvre = {
  ...constantSteer,
  sweep: () => ({ fromS: 1, toS: SWEEP_S }),
  headline: ['understeerGradientPerG'],
};

/** Steering held for a bend of 100 m, speed rising slowly from 8 m/s. */
function sweep(front: number): Trace {
  const model: SingleTrack = {
    mu: 1,
    // Over friction and load of the axle.
    stiffnessFront: (2 * front) / (frontShare * weight),
    stiffnessRear: (2 * rear) / ((1 - frontShare) * weight),
    lf,
    lr,
    h: 0,
    m: mass,
    inertia: 3000,
    steeringRate: [-1, 1],
    steering: [-1, 1],
    speed: [-90, 90],
    switchSpeed: 90,
    acceleration: 10,
  };
  const trace = emptyTrace(SWEEP_S * 100 + 1);
  let x = [0, 0, wheelbase / 100, 8, 0, 0, 0];
  for (let i = 0; i < trace.count; i++) {
    trace.t[i] = i / 100;
    trace.steerAngle[i] = x[2]!;
    trace.yawRate[i] = x[5]!;
    trace.vx[i] = x[3]! * Math.cos(x[6]!);
    trace.speed[i] = x[3]!;
    trace.ay[i] = x[3]! * (x[5]! + singleTrack(model, x, [0, 0.2])[6]!);
    x = integrate((at) => singleTrack(model, at, [0, 0.2]), x, 2, 0.005);
  }
  return trace;
}

function value(trace: Trace, id: MetricId): number {
  return computeMetrics(trace, manoeuvre, car).find((metric) => metric.id === id)!.value!;
}

describe('Wong, Theory of Ground Vehicles, example 5.1 (from memory)', () => {
  const { a, b } = published;

  test('(a) understeers: gradient and characteristic speed', () => {
    const trace = sweep(38920);
    expect(Math.abs(value(trace, 'understeerGradientPerG') / a.Kus_deg - 1)).toBeLessThan(0.01);
    expect(Math.abs(value(trace, 'characteristicSpeed') / a.v_char - 1)).toBeLessThan(0.01);
    // As printed: 0.92°, 149 km/h.
    expect(value(trace, 'understeerGradientPerG')).toBeCloseTo(0.92, 1);
    expect(Math.round(value(trace, 'characteristicSpeed') * 3.6)).toBeGreaterThan(147);
    expect(Math.round(value(trace, 'characteristicSpeed') * 3.6)).toBeLessThan(151);
  });

  test('(b) oversteers: gradient and critical speed', () => {
    const trace = sweep(47820);
    expect(Math.abs(value(trace, 'understeerGradientPerG') / b.Kus_deg - 1)).toBeLessThan(0.01);
    expect(Math.abs(value(trace, 'criticalSpeed') / b.v_crit - 1)).toBeLessThan(0.01);
  });
});
