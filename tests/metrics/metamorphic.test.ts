import { describe, expect, test } from 'vitest';
import type { Manoeuvre, Span } from '../../harness/manoeuvres/manoeuvre.ts';
import { MANOEUVRES } from '../../harness/manoeuvres/manoeuvres.ts';
import { computeMetrics } from '../../harness/metrics/compute-metrics.ts';
import { computeVerdict } from '../../harness/metrics/compute-verdict.ts';
import { emptyTrace } from '../../harness/metrics/empty-trace.ts';
import type { Metric } from '../../harness/metrics/metric.ts';
import type { Trace } from '../../harness/metrics/trace.ts';
import { reference, trackedReference } from '../manoeuvres/reference.ts';
import { driveManoeuvre } from '../manoeuvres/rig.ts';

/** Each manoeuvre driven once by the reference car on the slippery floor. */
const DRIVES = MANOEUVRES.map((manoeuvre) => {
  const of = manoeuvre.kind === 'pivot' ? trackedReference : reference;
  const { description, car } = of('slippery');
  return {
    name: manoeuvre.name,
    manoeuvre,
    car,
    trace: driveManoeuvre(manoeuvre, description, car, 0.1),
  };
});

function map(trace: Trace, name: keyof Trace, change: (value: number, i: number) => number): Trace {
  return { ...trace, [name]: (trace[name] as Float64Array).map(change) };
}

const swap = <T>([left, right, ...rest]: T[]): T[] => [
  right!,
  left!,
  ...(rest.length > 0 ? swap(rest) : []),
];

/** The same drive seen in a mirror. */
function mirrored(trace: Trace): Trace {
  const signed = [
    'y',
    'yaw',
    'vy',
    'yawRate',
    'ay',
    'sideslip',
    'steerAngle',
    'steerStick',
  ] as const;
  const sided = ['slipRatio', 'slipAngle', 'load', 'drive', 'current', 'winding'] as const;
  let out = trace;
  for (const name of signed) out = map(out, name, (value) => -value);
  for (const name of sided) out = { ...out, [name]: swap(trace[name]) };
  return { ...out, slipAngle: out.slipAngle.map((column) => column.map((value) => -value)) };
}

function mirroredCourse(manoeuvre: Manoeuvre): Manoeuvre {
  const { course } = manoeuvre;
  if (course === undefined) return manoeuvre;
  return {
    ...manoeuvre,
    course: (car) => course(car).map((gate) => ({ ...gate, right: -gate.left, left: -gate.right })),
  };
}

/** The same drive, begun elsewhere in another direction. */
function moved(trace: Trace, dx: number, dy: number, turn: number): Trace {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  let out = map(trace, 'x', (x, i) => dx + cos * x - sin * trace.y[i]!);
  out = map(out, 'y', (y, i) => dy + sin * trace.x[i]! + cos * y);
  return map(out, 'yaw', (yaw) => yaw + turn);
}

/** The same drive by a clock that is `by` s ahead. */
function late(manoeuvre: Manoeuvre, by: number): Manoeuvre {
  const shifted = (span: Span): Span => ({ fromS: span.fromS + by, toS: span.toS + by });
  return {
    ...manoeuvre,
    actionS: (car) => (manoeuvre.actionS?.(car) ?? 0) + by,
    ...(manoeuvre.steady && { steady: (car) => shifted(manoeuvre.steady!(car)) }),
    ...(manoeuvre.sweep && { sweep: (car) => shifted(manoeuvre.sweep!(car)) }),
  };
}

/** The same drive after a time of standing. */
function armed(trace: Trace, ticks: number): Trace {
  const out = emptyTrace(trace.count + ticks, trace.drive.length);
  const copy = (to: Float64Array, from: Float64Array) => {
    to.fill(from[0]!, 0, ticks);
    to.set(from, ticks);
  };
  for (const [name, column] of Object.entries(trace)) {
    const to = out[name as keyof Trace];
    if (column instanceof Float64Array) copy(to as Float64Array, column);
    if (Array.isArray(column))
      for (const [i, each] of column.entries()) copy((to as Float64Array[])[i]!, each);
  }
  for (let i = 0; i < ticks; i++) out.t[i] = (i - ticks) * 0.01;
  return out;
}

function expectSame(found: Metric[], expected: Metric[], within: number): void {
  expect(found.map(({ id }) => id).sort()).toEqual(expected.map(({ id }) => id).sort());
  for (const metric of expected) {
    const other = found.find(({ id }) => id === metric.id)!;
    expect(other.missing, metric.id).toBe(metric.missing);
    const apart = Math.abs((other.value ?? 0) - (metric.value ?? 0));
    expect(apart, metric.id).toBeLessThanOrEqual(within * Math.max(1, Math.abs(metric.value ?? 0)));
  }
}

describe.each(DRIVES)('$name', ({ manoeuvre, car, trace }) => {
  const metrics = computeMetrics(trace, manoeuvre, car);
  const verdict = computeVerdict(trace, manoeuvre, car);

  test('in a mirror: the same metrics, the motors’ own with their sides', () => {
    const other = mirroredCourse(manoeuvre);
    const found = computeMetrics(mirrored(trace), other, car).map((metric) => {
      const id = metric.id.replace(/[12]$/, (side) => String(3 - Number(side))) as Metric['id'];
      return { ...metric, id };
    });
    expectSame(found, metrics, 1e-9);
    expect(computeVerdict(mirrored(trace), other, car).kind).toBe(verdict.kind);
  });

  test('elsewhere, in another direction: the same metrics', () => {
    const other = moved(trace, -3.7, 12.1, 2.3);
    expectSame(computeMetrics(other, manoeuvre, car), metrics, 1e-7);
    expect(computeVerdict(other, manoeuvre, car).text).toBe(verdict.text);
  });

  test('at another time: the same metrics', () => {
    const by = 4;
    const other = map(trace, 't', (t) => t + by);
    const manoeuvreLater = late(manoeuvre, by);
    const found = computeMetrics(other, manoeuvreLater, car);
    // Time to top speed counts from 0 s, when the manoeuvre begins.
    const expected = metrics.map((metric) =>
      metric.id === 'timeToTopSpeed' ? { ...metric, value: metric.value! + by } : metric,
    );
    expectSame(found, expected, 1e-9);
    expect(computeVerdict(other, manoeuvreLater, car).text).toBe(verdict.text);
  });

  test('after a time of arming: the same metrics', () => {
    const other = armed(trace, 150);
    expectSame(computeMetrics(other, manoeuvre, car), metrics, 0);
    expect(computeVerdict(other, manoeuvre, car)).toEqual(verdict);
  });
});
