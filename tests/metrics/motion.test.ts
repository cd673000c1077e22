import { describe, expect, test } from 'vitest';
import type { Manoeuvre } from '../../harness/manoeuvres/manoeuvre.ts';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import type { MetricId } from '../../harness/metrics/metric.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { State } from '../../lib/index.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

function metric(trace: Trace, id: MetricId, part: Partial<Manoeuvre> = {}) {
  const found = computeMetrics(trace, sampleManoeuvre({ headline: [id], ...part }), SAMPLE_CAR);
  return found.find((each) => each.id === id);
}

function value(trace: Trace, id: MetricId, part: Partial<Manoeuvre> = {}): number {
  return metric(trace, id, part)!.value!;
}

describe('stopping', () => {
  const action = { actionS: () => 2 };
  const [speed, a] = [4, 3.2];
  const trace = traceOf((t) => ({ vx: Math.max(speed - a * Math.max(t - 2, 0), 0) }), 0, 6);

  test('even deceleration: v / a, v² / 2a, a', () => {
    // A standstill counts from 0.05 m/s down.
    expect(value(trace, 'stoppingTime', action)).toBeCloseTo((speed - 0.05) / a, 9);
    const distance = (speed ** 2 - 0.05 ** 2) / (2 * a);
    expect(value(trace, 'stoppingDistance', action)).toBeCloseTo(distance, 6);
    expect(value(trace, 'deceleration', action)).toBeCloseTo(a, 2);
    expect(value(trace, 'entrySpeed', action)).toBe(speed);
  });

  test('is the same backwards', () => {
    const back = traceOf((t) => ({ vx: -Math.max(speed - a * Math.max(t - 2, 0), 0) }), 0, 6);
    expect(value(back, 'stoppingTime', action)).toBeCloseTo((speed - 0.05) / a, 9);
    expect(value(back, 'stoppingDistance', action)).toBeCloseTo(2.5, 2);
  });

  test('has no figure for a car that drives on, or stood', () => {
    const on = traceOf(() => ({ vx: 1 }), 0, 4);
    expect(metric(on, 'stoppingTime', action)).toMatchObject({ value: null });
    expect(metric(on, 'stoppingTime', action)!.missing).toContain('still moving');
    const stood = traceOf(() => ({}), 0, 4);
    expect(metric(stood, 'stoppingTime', action)!.missing).toContain('not moving');
  });

  test('reaction time: until the core has left ready and driving', () => {
    const state = (t: number) => (t < 2.25 ? State.DRIVING : State.STOPPING);
    const lost = traceOf((t) => ({ vx: 1, state: state(t) }), 0, 4);
    expect(value(lost, 'reactionTime', action)).toBeCloseTo(0.25, 9);
    const on = traceOf(() => ({ vx: 1, state: State.DRIVING }), 0, 4);
    expect(metric(on, 'reactionTime', action)!.missing).toContain('drove on');
  });
});

describe('speed and way', () => {
  const tau = 0.6;
  const trace = traceOf((t) => ({ vx: t < 0 ? 0 : 5 * (1 - Math.exp(-t / tau)) }), -1, 12);

  test('top speed and the time to 95 % of it: tau ln 20', () => {
    expect(value(trace, 'topSpeed')).toBeCloseTo(5, 6);
    expect(value(trace, 'timeToTopSpeed')).toBeCloseTo(tau * Math.log(20), 3);
  });

  test('distance: integral of the speed', () => {
    expect(value(trace, 'distance')).toBeCloseTo(5 * (12 - tau), 3);
  });

  test('roll back: farthest way lost again, also before the climb', () => {
    const hill = traceOf((t) => ({ x: t < 1 ? -0.3 * t : -0.3 + (t - 1), yaw: 0 }), 0, 4);
    expect(value(hill, 'rollBack')).toBeCloseTo(0.3, 9);
    const turned = traceOf((t) => ({ y: t < 3 ? t : 3 - 0.5 * (t - 3), yaw: Math.PI / 2 }), 0, 4);
    expect(value(turned, 'rollBack')).toBeCloseTo(0.5, 9);
  });
});

describe('wheels, motors and cells', () => {
  test('slip: most of any wheel above a crawl; time at 20 % or more, to parts of a tick', () => {
    const trace = traceOf((t) => ({ vx: t < 1 ? 0.05 : 2 }), 0, 4);
    for (let i = 0; i < trace.count; i++) {
      const t = trace.t[i]!;
      trace.slipRatio[0]![i] = Math.max(0.9 - t, 0);
      trace.slipRatio[3]![i] = -Math.max(0.35 - Math.abs(t - 2.5), 0);
    }
    expect(value(trace, 'wheelSlip')).toBeCloseTo(35, 9);
    expect(value(trace, 'wheelSlipTime')).toBeCloseTo(0.7 + 0.3, 9);
    trace.slipRatio[3]!.fill(0);
    trace.slipRatio[0] = trace.t.map((t) => Math.max(0.903 - t, 0));
    expect(value(trace, 'wheelSlipTime')).toBeCloseTo(0.703, 9);
  });

  test('energy from where the manoeuvre began, and for each metre', () => {
    const trace = traceOf((t) => ({ vx: 2, energy: 10 + 3 * t }), -2, 5);
    expect(value(trace, 'energy')).toBeCloseTo(15, 9);
    expect(value(trace, 'energyPerMetre')).toBeCloseTo(1.5, 9);
  });

  test('currents and windings of each motor and of the worst', () => {
    const trace = traceOf((t) => ({ vx: 1, supply: 8 - t / 10 }), 0, 4);
    for (let i = 0; i < trace.count; i++) {
      trace.current[0]![i] = -3 * Math.sin(trace.t[i]!);
      trace.current[1]![i] = 2;
      trace.winding[0]![i] = 40 + trace.t[i]!;
      trace.winding[1]![i] = 30 + 3 * trace.t[i]! * (4 - trace.t[i]!);
    }
    expect(value(trace, 'peakCurrent')).toBeCloseTo(3, 3);
    expect(value(trace, 'peakCurrent1')).toBeCloseTo(3, 3);
    expect(value(trace, 'peakCurrent2')).toBe(2);
    expect(value(trace, 'windingRise')).toBeCloseTo(12, 6);
    expect(value(trace, 'windingRise1')).toBeCloseTo(4, 9);
    expect(value(trace, 'lowestSupply')).toBeCloseTo(7.6, 9);
    const ids = computeMetrics(trace, sampleManoeuvre({}), SAMPLE_CAR).map(({ id }) => id);
    expect(ids).not.toContain('peakCurrent3');
  });
});

describe('turning on the spot', () => {
  const trace = traceOf((t) => ({ yaw: 2 + 1.5 * t, x: 1 + 0.01 * Math.sin(t), y: 3 }), 0, 6);

  test('time for a turn, angle, drift', () => {
    expect(value(trace, 'turnTime')).toBeCloseTo((2 * Math.PI) / 1.5, 9);
    expect(value(trace, 'yawTurned')).toBeCloseTo((9 * 180) / Math.PI, 6);
    expect(value(trace, 'centreDrift')).toBeCloseTo(0.01, 5);
  });

  test('half a turn has no time for a whole one', () => {
    const half = traceOf((t) => ({ yaw: t / 2 }), 0, 6);
    expect(metric(half, 'turnTime')!.missing).toContain('all the way');
  });
});

describe('off the line', () => {
  test('greatest way from the line at the action, and change of heading', () => {
    const trace = traceOf(
      (t) => ({ x: t, y: t < 1 ? 5 : 5 + (t - 1) / 2, yaw: t < 1.5 ? 0 : -0.2 }),
      0,
      3,
    );
    const part = { actionS: () => 1, kind: 'straight' as const };
    expect(value(trace, 'sideways', part)).toBeCloseTo(1, 9);
    expect(value(trace, 'headingChange', part)).toBeCloseTo((0.2 * 180) / Math.PI, 9);
  });
});

describe('letting go in a bend', () => {
  test('tuck-in: greatest curvature after it over that at it', () => {
    const trace = traceOf((t) => ({ vx: 2, yawRate: 1 + 0.4 * Math.max(t - 1, 0) }), 0, 3);
    // A second of full-size time is sqrt(0.3 / 4.5) = 0.258 s here; the last tick before is 1.25 s.
    expect(value(trace, 'tuckIn', { actionS: () => 1 })).toBeCloseTo(1 + 0.4 * 0.25, 6);
  });

  test('a car that almost stands is left out, one that went straight has none', () => {
    const slow = traceOf((t) => ({ vx: t < 1.1 ? 2 : 0.1, yawRate: 1 }), 0, 3);
    expect(value(slow, 'tuckIn', { actionS: () => 1 })).toBeCloseTo(1, 9);
    const straight = traceOf(() => ({ vx: 2 }), 0, 3);
    expect(metric(straight, 'tuckIn', { actionS: () => 1 })!.missing).toContain('not in a bend');
  });
});

test('a drive that broke off before the action has no figures, and says so', () => {
  const trace = traceOf(() => ({ vx: 1 }), 0, 1);
  const found = computeMetrics(
    trace,
    sampleManoeuvre({ headline: ['stoppingTime'], actionS: () => 2 }),
    SAMPLE_CAR,
  );
  expect(found).toHaveLength(1);
  expect(found[0]).toMatchObject({ id: 'stoppingTime', value: null });
  expect(found[0]!.missing).toContain('ended');
});
