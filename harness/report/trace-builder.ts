/** Rows on one time axis: `traces[k][i]` belongs to `timeS[i]`. */
export interface TraceSet {
  timeS: number[];
  traces: (number | null)[][];
}

/** Takes the rows of a run one at a time and keeps as many points as a chart can use. */
export interface TraceBuilder {
  /**
   * @param timeS seconds, not below the one before
   * @param values one for each trace; null, NaN or infinite = no sample
   * @throws RangeError when time falls or the number of values is wrong
   */
  push(timeS: number, values: readonly (number | null)[]): void;
  /** Number of points `finish` would give now; never above `maxPoints`. */
  size(): number;
  /** What has been pushed so far; more may be pushed afterwards. */
  finish(): TraceSet;
}

/** Consecutive rows as one: for each trace its extremes, in the order they came. */
interface Bucket {
  rows: number;
  fromS: number;
  toS: number;
  hasGap: boolean;
  extremes: Extremes[];
}

interface Extremes {
  /** The extreme that came first, and the other one; null = no sample in this bucket. */
  early: number | null;
  late: number | null;
  /** Some rows of the bucket had no sample. */
  gap: boolean;
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
  let first: Bucket | undefined;
  let last: Bucket | undefined;
  let buckets: Bucket[] = [];
  let perBucket = 1;
  let points = 0;

  function add(row: Bucket): void {
    const open = buckets.at(-1);
    if (open !== undefined && open.rows < perBucket) {
      points += joinInto(open, row);
    } else {
      buckets.push(row);
      points += pointsOf(row);
    }
    while (points > maxPoints - 2) {
      buckets = joinPairs(buckets);
      perBucket *= 2;
      points = buckets.reduce((sum, bucket) => sum + pointsOf(bucket), 0);
    }
  }

  return {
    push(timeS, values) {
      const row = rowBucket(timeS, values, traceCount);
      const before = last ?? first;
      if (before !== undefined && !(timeS >= before.toS)) {
        throw new RangeError(`time must not fall: ${timeS} s after ${before.toS} s`);
      }
      if (first === undefined) {
        first = row;
        return;
      }
      if (last !== undefined) add(last);
      last = row;
    },
    size: () => points + (first === undefined ? 0 : 1) + (last === undefined ? 0 : 1),
    finish: () => toTraces([first, ...buckets, last], traceCount),
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

function rowBucket(timeS: number, values: readonly (number | null)[], count: number): Bucket {
  if (values.length !== count) {
    throw new RangeError(`a row must hold ${count} values, not ${values.length}`);
  }
  if (!Number.isFinite(timeS)) throw new RangeError(`time must be a number, not ${timeS}`);
  const extremes = values.map((given) => {
    const value = given !== null && Number.isFinite(given) ? given : null;
    return { early: value, late: value, gap: value === null };
  });
  return { rows: 1, fromS: timeS, toS: timeS, hasGap: extremes.some((e) => e.gap), extremes };
}

/** A bucket of one row is that row; only a trace with samples *and* gaps needs a third point. */
function pointsOf(bucket: Bucket): number {
  if (bucket.rows === 1) return 1;
  return needsGapPoint(bucket) ? 3 : 2;
}

function needsGapPoint(bucket: Bucket): boolean {
  return bucket.hasGap && bucket.extremes.some((e) => e.gap && e.early !== null);
}

/** Appends `later` to `bucket`; returns by how much its number of points grew. */
function joinInto(bucket: Bucket, later: Bucket): number {
  const before = pointsOf(bucket);
  bucket.extremes.forEach((own, i) => {
    joinExtremes(own, later.extremes[i]!);
  });
  bucket.rows += later.rows;
  bucket.toS = later.toS;
  bucket.hasGap = bucket.hasGap || later.hasGap;
  return pointsOf(bucket) - before;
}

function joinExtremes(own: Extremes, later: Extremes): void {
  own.gap = own.gap || later.gap;
  if (later.early === null || later.late === null) return;
  if (own.early === null || own.late === null) {
    own.early = later.early;
    own.late = later.late;
    return;
  }
  const inOrder = [own.early, own.late, later.early, later.late];
  const least = Math.min(...inOrder);
  const greatest = Math.max(...inOrder);
  const leastIsFirst = inOrder.indexOf(least) <= inOrder.indexOf(greatest);
  own.early = leastIsFirst ? least : greatest;
  own.late = leastIsFirst ? greatest : least;
}

function joinPairs(buckets: Bucket[]): Bucket[] {
  const joined: Bucket[] = [];
  for (let i = 0; i < buckets.length; i += 2) {
    const bucket = buckets[i]!;
    const next = buckets[i + 1];
    if (next !== undefined) joinInto(bucket, next);
    joined.push(bucket);
  }
  return joined;
}

function toTraces(parts: (Bucket | undefined)[], traceCount: number): TraceSet {
  const timeS: number[] = [];
  const traces: (number | null)[][] = Array.from({ length: traceCount }, () => []);
  for (const bucket of parts) {
    if (bucket === undefined) continue;
    timeS.push(bucket.fromS);
    bucket.extremes.forEach((e, k) => {
      traces[k]!.push(e.early);
    });
    if (bucket.rows === 1) continue;
    if (needsGapPoint(bucket)) {
      timeS.push((bucket.fromS + bucket.toS) / 2);
      bucket.extremes.forEach((e, k) => {
        traces[k]!.push(e.gap ? null : e.early);
      });
    }
    timeS.push(bucket.toS);
    bucket.extremes.forEach((e, k) => {
      traces[k]!.push(e.late);
    });
  }
  return { timeS, traces };
}
