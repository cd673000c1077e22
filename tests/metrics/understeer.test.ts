import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import type { Metric, MetricId } from '../../harness/metrics/metric.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

const G = 9.81;
const SWEEP_S = 10;
const { wheelbase, friction } = SAMPLE_CAR;
const manoeuvre = sampleManoeuvre({ sweep: () => ({ fromS: 0, toS: SWEEP_S }) });

/** Steady bends of a linear car, steering = arctan(L / R) + K ay, one after the other. */
function bends(gradient: number, bend: (t: number) => { speed: number; radius: number }): Trace {
  return traceOf(
    (t) => {
      const { speed, radius } = bend(t / SWEEP_S);
      const ay = speed ** 2 / radius;
      const yawRate = speed / radius;
      return {
        vx: speed,
        yawRate,
        ay,
        steerAngle: Math.atan(wheelbase / radius) + gradient * ay,
      };
    },
    0,
    SWEEP_S,
  );
}

function measure(trace: Trace, ids: MetricId[]): Metric[] {
  return computeMetrics(trace, { ...manoeuvre, headline: ids }, SAMPLE_CAR);
}

function figure(trace: Trace, id: MetricId): number | null {
  return measure(trace, [id])[0]!.value;
}

const gradients = fc.double({ min: -0.02, max: 0.05, noNaN: true });

describe('understeer gradient by ISO 4138 (from memory)', () => {
  test.each([
    { name: 'radius constant', bend: (s: number) => ({ speed: 0.5 + 2.5 * s, radius: 2 }) },
    { name: 'speed constant', bend: (s: number) => ({ speed: 3, radius: 2 / (0.02 + s) }) },
    {
      name: 'both changing',
      bend: (s: number) => ({ speed: 1 + 2 * s, radius: 4 - 2 * s }),
    },
  ])('is that of the car, $name', ({ bend }) => {
    fc.assert(
      fc.property(gradients, (gradient) => {
        const found = figure(bends(gradient, bend), 'understeerGradient')!;
        expect(Math.abs(found - gradient)).toBeLessThan(1e-9);
        const perG = figure(bends(gradient, bend), 'understeerGradientPerG')!;
        expect(Math.abs(perG - (gradient * G * 180) / Math.PI)).toBeLessThan(1e-6);
      }),
    );
  });

  test('characteristic speed of an understeering car, critical of an oversteering one', () => {
    const circle = (s: number) => ({ speed: 0.5 + 2.5 * s, radius: 2 });
    const under = bends(0.008, circle);
    expect(figure(under, 'characteristicSpeed')).toBeCloseTo(Math.sqrt(wheelbase / 0.008), 6);
    expect(measure(under, ['criticalSpeed']).map(({ id }) => id)).not.toContain('criticalSpeed');
    const over = bends(-0.008, circle);
    expect(figure(over, 'criticalSpeed')).toBeCloseTo(Math.sqrt(wheelbase / 0.008), 6);
    const ids = measure(over, ['characteristicSpeed']).map(({ id }) => id);
    expect(ids).not.toContain('characteristicSpeed');
  });

  test('what happens beyond 40 % of the grip does not count', () => {
    const trace = bends(0.01, (s) => ({ speed: 0.5 + 3.5 * s, radius: 2 }));
    const limit = 0.4 * friction * G;
    for (let i = 0; i < trace.count; i++) if (trace.ay[i]! > limit) trace.steerAngle[i] = 0.4;
    expect(figure(trace, 'understeerGradient')).toBeCloseTo(0.01, 9);
    // Nor does a slide back through the linear part after it.
    trace.ay[trace.count - 1] = 0.1;
    expect(figure(trace, 'understeerGradient')).toBeCloseTo(0.01, 9);
  });

  test('is not read off a drive that hardly changes', () => {
    const trace = bends(0.01, () => ({ speed: 1, radius: 2 }));
    const [metric] = measure(trace, ['understeerGradientPerG']);
    expect(metric).toMatchObject({ value: null });
    expect(metric!.missing).toContain('did not rise');
  });
});
