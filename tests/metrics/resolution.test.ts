import { expect, test } from 'vitest';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import { METRIC_IDS } from '../../harness/metrics/metric.ts';
import { SAMPLE_CAR, sampleManoeuvre } from './sample-car.ts';
import { traceOf } from './synthetic-trace.ts';

test('every metric says what difference can be told, no finer than its last decimal by 10', () => {
  const manoeuvre = sampleManoeuvre({ headline: [...METRIC_IDS] });
  const metrics = computeMetrics(
    traceOf((t) => ({ x: t, vx: 1 }), 0, 4),
    manoeuvre,
    SAMPLE_CAR,
  );
  expect(metrics.length).toBeGreaterThan(40);
  for (const { id, resolution, digits } of metrics) {
    expect(resolution, id).toBeGreaterThan(0);
    expect(resolution, id).toBeGreaterThanOrEqual(0.0999 * 10 ** -digits);
    expect(resolution, id).toBeLessThanOrEqual(10.001 * 10 ** -digits);
  }
});
