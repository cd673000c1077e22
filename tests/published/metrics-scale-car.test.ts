import { describe, expect, test } from 'vitest';
import { constantRadius } from '../../harness/manoeuvres/constant-radius.ts';
import { constantSpeed } from '../../harness/manoeuvres/constant-speed.ts';
import { constantSteer } from '../../harness/manoeuvres/constant-steer.ts';
import type { Manoeuvre, ManoeuvreCar } from '../../harness/manoeuvres/manoeuvre.ts';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import { emptyTrace } from '../../harness/metrics/empty-trace.ts';
import type { MetricId } from '../../harness/metrics/metric.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { driveLinearCar } from '../manoeuvres/linear-car.ts';
import published from './scale-car-1-10.json' with { type: 'json' };
import { integrate, type SingleTrack, singleTrack } from './single-track-model.ts';

const p = published.parameters;
const computed = published.handling_computed;
const wheelbase = p.lf + p.lr;

const model: SingleTrack = {
  mu: p.mu,
  stiffnessFront: p.C_Sf,
  stiffnessRear: p.C_Sr,
  lf: p.lf,
  lr: p.lr,
  h: p.h,
  m: p.m,
  inertia: p.I,
  steeringRate: [p.sv_min, p.sv_max],
  steering: [p.s_min, p.s_max],
  speed: [p.v_min, p.v_max],
  switchSpeed: p.v_switch,
  acceleration: p.a_max,
};

const car: ManoeuvreCar = {
  layout: 'pair',
  wheelbase,
  track: 0.25,
  cgToFront: p.lf,
  length: p.length,
  width: p.width,
  lock: p.s_max,
  topSpeed: p.v_max,
  friction: p.mu,
};

function value(trace: Trace, manoeuvre: Manoeuvre, id: MetricId): number {
  return computeMetrics(trace, manoeuvre, car).find((metric) => metric.id === id)!.value!;
}

describe('metrics of the 1:10 car (O’Kelly et al., PMLR 123, 2020), single-track model', () => {
  // Left are the rise of the sweep itself and the model's small angles: d³/3 at d = L / R = 0.094.
  test.each([constantRadius, constantSteer, constantSpeed])(
    '$name gives gradient and characteristic speed within 1.5 percent',
    (manoeuvre) => {
      const trace = driveLinearCar(manoeuvre, model, car);
      const gradient = value(trace, manoeuvre, 'understeerGradient');
      expect(Math.abs(gradient / computed.K_rad_s2_per_m - 1)).toBeLessThan(0.015);
      const perG = value(trace, manoeuvre, 'understeerGradientPerG');
      expect(Math.abs(perG / computed.K_deg_per_g - 1)).toBeLessThan(0.015);
      const speed = value(trace, manoeuvre, 'characteristicSpeed');
      expect(Math.abs(speed / computed.v_char - 1)).toBeLessThan(0.015);
    },
  );

  test('at constant speed the stick stops where 95 % of the grip are used', () => {
    const { ay } = driveLinearCar(constantSpeed, model, car);
    const most = Math.max(...ay) / (p.mu * 9.81);
    expect(most).toBeGreaterThan(0.94);
    expect(most).toBeLessThan(0.97);
  });

  const STEP = 0.5;
  const END = 2;
  const stepped: Manoeuvre = {
    ...constantSteer,
    headline: ['yawResponseTime', 'yawOvershoot', 'yawPeakTime', 'yawRateGain', 'tbFactor'],
    actionS: () => STEP,
    steady: () => ({ fromS: END - 0.3, toS: END }),
    sweep: () => ({ fromS: 0, toS: 0 }),
  };

  /** A step of 0.002 rad at speed `v`. */
  function step(v: number, tick: number): Trace {
    const trace = emptyTrace(Math.round(END / tick) + 1);
    let x = [0, 0, 0, v, 0, 0, 0];
    for (let i = 0; i < trace.count; i++) {
      trace.t[i] = i * tick;
      if (i * tick >= STEP - 1e-9) x[2] = 0.002;
      trace.steerAngle[i] = x[2]!;
      trace.yawRate[i] = x[5]!;
      trace.vx[i] = v * Math.cos(x[6]!);
      trace.vy[i] = v * Math.sin(x[6]!);
      trace.speed[i] = v;
      x = integrate((at) => singleTrack(model, at, [0, 0]), x, 4, tick / 4);
    }
    return trace;
  }

  test.each(computed.step)('response to a step at $v m/s', (each) => {
    const trace = step(each.v, 0.0005);
    const gain = value(trace, stepped, 'yawRateGain');
    expect(Math.abs(gain / each.yaw_gain - 1)).toBeLessThan(1e-4);
    // Where in a tick of 0.5 ms the step lies is not known.
    const t90 = value(trace, stepped, 'yawResponseTime') / 1000;
    expect(Math.abs(t90 - each.t90_s)).toBeLessThan(0.0003);
    const overshoot = value(trace, stepped, 'yawOvershoot') / 100;
    expect(Math.abs(overshoot - each.overshoot)).toBeLessThan(1e-4);
    const peak = computeMetrics(trace, stepped, car).find(({ id }) => id === 'yawPeakTime')!;
    if (each.overshoot < 0.02) return expect(peak.value).toBeNull();
    expect(Math.abs(peak.value! / 1000 - each.t_peak_s!)).toBeLessThan(0.0005);
    const tb = Math.abs(each.t_peak_s! * each.beta_gain * 0.002) * (180 / Math.PI);
    expect(Math.abs(value(trace, stepped, 'tbFactor') / tb - 1)).toBeLessThan(0.01);
  });

  test.each(computed.step)('the same at $v m/s from samples every 10 ms', (each) => {
    const trace = step(each.v, 0.01);
    const t90 = value(trace, stepped, 'yawResponseTime') / 1000;
    expect(Math.abs(t90 - each.t90_s)).toBeLessThan(0.0065);
    expect(Math.abs(value(trace, stepped, 'yawOvershoot') / 100 - each.overshoot)).toBeLessThan(
      0.001,
    );
  });
});
