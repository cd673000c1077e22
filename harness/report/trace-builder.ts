import { BucketStore, type PointSink } from './bucket-store.ts';
import type { Trace } from './report-data.ts';

/** Rows on one time axis: `traces[k][i]` belongs to `timeS[i]`. */
export interface TraceSet {
  timeS: number[];
  traces: (number | null)[][];
}

/** Takes the rows of a run one at a time and keeps as many points as a chart can use. */
export interface TraceBuilder {
  /**
   * @param timeS seconds, not below the one before
   * @param values one for each trace; null, NaN or infinite = no sample; not kept
   * @throws RangeError when time falls or the number of values is wrong
   */
  push(timeS: number, values: readonly (number | null)[]): void;
  /** Number of points `finish` would give now; never above `maxPoints`. */
  size(): number;
  /** What has been pushed so far; more may be pushed afterwards. */
  finish(): TraceSet;
}

/**
 * Thins a run for charting while it streams, in memory bounded by `maxPoints` whatever its
 * length. Up to `maxPoints` rows come out as they went in. Beyond that, rows are gathered in
 * buckets of equal count; each gives two points on the common axis, at the times of its first
 * and last row, where every trace has its least and greatest value in the order they came; a
 * third point between them, empty for a trace that had missing samples, keeps the gap. When
 * there are too many points, neighbouring buckets are joined. The first and the last row of
 * the run stay exact. So no extreme is ever lost, and none moves by more than its bucket.
 * @param traceCount values a row, 0 or more
 * @param maxPoints most points of the result, 8 or more
 */
export function createTraceBuilder(traceCount: number, maxPoints: number): TraceBuilder {
  if (!(maxPoints >= 8)) throw new RangeError(`maxPoints must be 8 or more, not ${maxPoints}`);
  const store = new BucketStore(traceCount, maxPoints);
  const first = new Float64Array(traceCount);
  const last = new Float64Array(traceCount);
  let firstS = 0;
  let lastS = Number.NEGATIVE_INFINITY;
  /** Rows at the ends that are kept apart from the buckets: 0, 1 or 2. */
  let ends = 0;

  return {
    push(timeS, values) {
      checkRow(timeS, lastS, values.length, traceCount);
      if (ends === 2) {
        store.add(lastS, last);
        while (store.points > maxPoints - 2) store.halve();
      }
      if (ends === 0) {
        copyRow(values, first);
        firstS = timeS;
      } else {
        copyRow(values, last);
      }
      lastS = timeS;
      ends = Math.min(2, ends + 1);
    },
    size: () => store.points + ends,
    finish() {
      const set: TraceSet = { timeS: [], traces: Array.from({ length: traceCount }, () => []) };
      const point: PointSink = (timeS, valueAt) => {
        set.timeS.push(timeS);
        set.traces.forEach((trace, k) => {
          const value = valueAt(k);
          trace.push(Number.isNaN(value) ? null : value);
        });
      };
      if (ends > 0) point(firstS, (k) => first[k]!);
      store.emit(point);
      if (ends > 1) point(lastS, (k) => last[k]!);
      return set;
    },
  };
}

/** The same for traces that are in memory already. */
export function decimate(set: TraceSet, maxPoints: number): TraceSet {
  const builder = createTraceBuilder(set.traces.length, maxPoints);
  set.timeS.forEach((timeS, i) => {
    builder.push(
      timeS,
      set.traces.map((values) => values[i] ?? null),
    );
  });
  return builder.finish();
}

function checkRow(timeS: number, lastS: number, given: number, wanted: number): void {
  if (given !== wanted) throw new RangeError(`a row must hold ${wanted} values, not ${given}`);
  if (!Number.isFinite(timeS)) throw new RangeError(`time must be a number, not ${timeS}`);
  if (timeS < lastS) throw new RangeError(`time must not fall: ${timeS} s after ${lastS} s`);
}

function copyRow(values: readonly (number | null)[], row: Float64Array): void {
  for (let k = 0; k < row.length; k += 1) {
    const value = values[k];
    row[k] = value != null && Number.isFinite(value) ? value : Number.NaN;
  }
}

/** Whether a panel tells anything: a sample, and if it is optional, one that is not zero. */
export function isWorthDrawing(
  traces: readonly Pick<Trace, 'values'>[],
  isOptional: boolean,
): boolean {
  return traces.some(({ values }) =>
    values.some((value) => value !== null && (!isOptional || value !== 0)),
  );
}
