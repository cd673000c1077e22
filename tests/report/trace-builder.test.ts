import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createTraceBuilder, decimate, type TraceSet } from '../../harness/report/trace-builder.ts';

const value = fc.option(fc.integer({ min: -32768, max: 32767 }), { nil: null, freq: 6 });

/** Runs of up to 600 rows of two traces with gaps, at uneven, never falling times. */
const run: fc.Arbitrary<TraceSet> = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 40 }), value, value), { minLength: 1, maxLength: 600 })
  .map((rows) => {
    let ms = 0;
    const timeS = rows.map(([step]) => {
      ms += step;
      return ms / 1000;
    });
    return { timeS, traces: [rows.map((r) => r[1]), rows.map((r) => r[2])] };
  });

const limit = fc.integer({ min: 8, max: 90 });

describe('thinning a run', () => {
  test('a run that fits comes out as it went in', () => {
    fc.assert(
      fc.property(run, (set) => {
        expect(decimate(set, 602)).toEqual(set);
      }),
    );
  });

  test('never holds or gives more points than allowed, at any time', () => {
    fc.assert(
      fc.property(run, limit, (set, maxPoints) => {
        const builder = createTraceBuilder(2, maxPoints);
        set.timeS.forEach((timeS, i) => {
          builder.push(timeS, [set.traces[0]![i]!, set.traces[1]![i]!]);
          expect(builder.size()).toBeLessThanOrEqual(maxPoints);
        });
        const { timeS, traces } = builder.finish();
        expect(timeS.length).toBe(builder.size());
        expect(traces.map((trace) => trace.length)).toEqual([timeS.length, timeS.length]);
      }),
    );
  });

  test('keeps the least and the greatest value of every trace', () => {
    fc.assert(
      fc.property(run, limit, (set, maxPoints) => {
        const thin = decimate(set, maxPoints);
        set.traces.forEach((trace, k) => {
          expect(extremes(thin.traces[k]!)).toEqual(extremes(trace));
        });
      }),
    );
  });

  test('a spike of one row survives in a long run, near its time, among its neighbours', () => {
    const timeS = Array.from({ length: 100_000 }, (_, i) => i / 100);
    for (const at of [1, 777, 50_000, 99_998]) {
      const trace = timeS.map((_, i) => (i === at ? 500 : 1));
      const thin = decimate({ timeS, traces: [trace] }, 1000);
      const place = thin.traces[0]!.indexOf(500);
      const bucketS = (4 * 1000) / 1000;
      expect(Math.abs(thin.timeS[place]! - timeS[at]!)).toBeLessThanOrEqual(bucketS);
      expect(thin.traces[0]!.filter((v) => v === 500)).toHaveLength(1);
    }
  });

  test('uses at least a quarter of the points it may use', () => {
    const timeS = Array.from({ length: 50_000 }, (_, i) => i / 100);
    const thin = decimate({ timeS, traces: [timeS] }, 2000);
    expect(thin.timeS.length).toBeGreaterThanOrEqual(500);
  });

  test('keeps the first and the last row exactly', () => {
    fc.assert(
      fc.property(run, limit, (set, maxPoints) => {
        const thin = decimate(set, maxPoints);
        for (const end of [0, -1]) {
          expect(rowAt(thin, end)).toEqual(rowAt(set, end));
        }
      }),
    );
  });

  test('time never falls, and a value never appears that was not there', () => {
    fc.assert(
      fc.property(run, limit, (set, maxPoints) => {
        const thin = decimate(set, maxPoints);
        thin.timeS.slice(1).forEach((t, i) => {
          expect(t).toBeGreaterThanOrEqual(thin.timeS[i]!);
        });
        thin.traces.forEach((trace, k) => {
          const known = new Set(set.traces[k]);
          for (const v of trace) expect(known.has(v)).toBe(true);
        });
      }),
    );
  });

  test('a rising trace still rises', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 3000 }), limit, (rows, maxPoints) => {
        const timeS = Array.from({ length: rows }, (_, i) => i / 100);
        const thin = decimate({ timeS, traces: [timeS.map((t) => t * 2)] }, maxPoints);
        thin.traces[0]!.slice(1).forEach((v, i) => {
          expect(v).toBeGreaterThanOrEqual(thin.traces[0]![i]!);
        });
      }),
    );
  });

  test('a gap stays a gap, however short, and one trace does not tear the other', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 200, max: 3000 }),
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (rows, length, share) => {
          const timeS = Array.from({ length: rows }, (_, i) => i / 100);
          const from = Math.floor(rows * share);
          const torn = timeS.map((_, i) => (i >= from && i < from + length ? null : 5));
          const thin = decimate({ timeS, traces: [torn, timeS.map(() => 7)] }, 80);
          expect(thin.traces[0]).toContain(null);
          expect(thin.traces[1]).not.toContain(null);
        },
      ),
    );
  });

  test('NaN and infinite values are no samples', () => {
    const builder = createTraceBuilder(3, 8);
    builder.push(0, [Number.NaN, Number.POSITIVE_INFINITY, 1]);
    expect(builder.finish().traces).toEqual([[null], [null], [1]]);
  });

  test('falling time, a wrong number of values and too few points are refused by name', () => {
    const builder = createTraceBuilder(1, 8);
    builder.push(1, [0]);
    expect(() => builder.push(0.99, [0])).toThrow('time must not fall: 0.99 s after 1 s');
    expect(() => builder.push(2, [0, 0])).toThrow('a row must hold 1 values, not 2');
    expect(() => builder.push(Number.NaN, [0])).toThrow('time must be a number');
    expect(() => createTraceBuilder(1, 7)).toThrow('maxPoints must be 8 or more, not 7');
  });

  test('no row gives no points', () => {
    expect(createTraceBuilder(2, 8).finish()).toEqual({ timeS: [], traces: [[], []] });
  });
});

function extremes(trace: readonly (number | null)[]): [number, number] {
  const values = trace.filter((v) => v !== null);
  return [Math.min(...values), Math.max(...values)];
}

function rowAt(set: TraceSet, index: number): (number | null | undefined)[] {
  return [set.timeS.at(index), ...set.traces.map((trace) => trace.at(index))];
}
