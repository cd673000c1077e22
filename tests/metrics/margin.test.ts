import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Gate } from '../../harness/manoeuvres/manoeuvre.ts';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

const { length, width, wheelbase, cgToFront } = SAMPLE_CAR;

function margin(trace: Trace, gates: Gate[]) {
  const manoeuvre = sampleManoeuvre({ headline: ['courseMargin'], course: () => gates });
  return computeMetrics(trace, manoeuvre, SAMPLE_CAR)[0]!;
}

/** Straight along x at 1 m/s, `y` aside of the start, pointing `yaw` away from it. */
function pass(y: number, yaw = 0): Trace {
  return traceOf((t) => (t === 0 ? { vx: 1 } : { x: t, y, yaw, vx: 1 }), 0, 4);
}

describe('room left on the course', () => {
  test('driving straight: half the gate less half the car, less the way aside', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.3, max: 0.3, noNaN: true }), (y) => {
        const gate = { fromX: 1, toX: 2, right: -0.2, left: 0.2 };
        const found = margin(pass(y), [gate]).value!;
        expect(found).toBeCloseTo(0.2 - width / 2 - Math.abs(y), 9);
      }),
    );
  });

  test('driving at an angle: the corners reach out', () => {
    const yaw = 0.5;
    // The outline's middle lies between the axles, the centre of gravity does not.
    const middle = cgToFront - wheelbase / 2;
    const reach = (middle + length / 2) * Math.sin(yaw) + (width / 2) * Math.cos(yaw);
    const gate = { fromX: 1, toX: 2, right: -Infinity, left: 0.4 };
    expect(margin(pass(0, yaw), [gate]).value!).toBeCloseTo(0.4 - reach, 9);
  });

  test('only what lies in the gate counts: a cone beside an edge between two corners', () => {
    // Turned by 90°, the car is a wall of its length across the way.
    const gate = { fromX: 1.5, toX: 1.5, right: 0.1, left: Infinity };
    const middle = cgToFront - wheelbase / 2;
    const found = margin(pass(0.5, Math.PI / 2), [gate]).value!;
    expect(found).toBeCloseTo(0.5 + middle - length / 2 - 0.1, 9);
  });

  test('the narrowest of all gates counts', () => {
    const gates = [0.3, 0.1, 0.2].map((left, i) => ({ fromX: 1 + i, toX: 1 + i, right: -1, left }));
    expect(margin(pass(0), gates).value!).toBeCloseTo(0.1 - width / 2, 9);
  });

  test('a drive that ended early had no time to reach a gate', () => {
    const manoeuvre = sampleManoeuvre({
      headline: ['courseMargin'],
      course: () => [{ fromX: 9, toX: 9, right: -1, left: 1 }],
      durationS: () => 10,
    });
    const { value, missing } = computeMetrics(pass(0), manoeuvre, SAMPLE_CAR)[0]!;
    expect([value, missing]).toEqual([null, 'The drive ended before it.']);
  });

  test('a gate that was never reached is named', () => {
    const gates = [1, 9].map((x) => ({ fromX: x, toX: x, right: -1, left: 1 }));
    expect(margin(pass(0), gates)).toMatchObject({ value: null });
    expect(margin(pass(0), gates).missing).toContain('gate 2 of 2');
  });
});
