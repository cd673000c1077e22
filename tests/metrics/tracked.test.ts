import { expect, test } from 'vitest';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

/** On a circle of `radius` at 1 m/s, with the stick of a tracked vehicle at `stick`. */
function drive(radius: number, stick: number) {
  const { wheelbase } = SAMPLE_CAR;
  const car = {
    ...SAMPLE_CAR,
    layout: 'tracked' as const,
    lock: Math.PI / 4,
    cgToFront: wheelbase / 2,
  };
  const trace = traceOf(
    (t) => ({
      x: radius * Math.sin(t / radius),
      y: radius * (1 - Math.cos(t / radius)),
      vx: 1,
      ay: 1 / radius,
      steerStick: stick,
    }),
    0,
    4,
  );
  const manoeuvre = sampleManoeuvre({
    headline: ['radiusRatio', 'balance'],
    steady: () => ({ fromS: 1, toS: 4 }),
  });
  return computeMetrics(trace, manoeuvre, car);
}

test('tracks are asked for wheelbase / tan(lock) at full stick, to either side', () => {
  const { wheelbase } = SAMPLE_CAR;
  for (const stick of [1, -1]) {
    expect(drive(3 * wheelbase, stick)[0]!.value).toBeCloseTo(3, 6);
  }
  const half = wheelbase / Math.tan(Math.PI / 8);
  expect(drive(2 * half, 0.5)[0]!.value).toBeCloseTo(2, 6);
  expect(drive(1, 0)[0]).toMatchObject({ value: null, missing: expect.stringMatching(/straight/) });
});

test('tracks have no balance', () => {
  expect(drive(1, 1).map(({ id }) => id)).not.toContain('balance');
});
