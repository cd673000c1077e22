/** Takes one point of a thinned run; a value of NaN = no sample. */
export type PointSink = (timeS: number, valueAt: (trace: number) => number) => void;

/**
 * Consecutive rows gathered in buckets of equal count, column by column, so that a row costs no
 * allocation: of each trace its least and its greatest value, in the order they came.
 */
export class BucketStore {
  /** Number of points that `emit` gives now. */
  points = 0;

  readonly #traceCount: number;
  readonly #fromS: Float64Array;
  readonly #toS: Float64Array;
  readonly #rows: Int32Array;
  /** Of the two extremes of each trace in each bucket the one that came first; NaN = none. */
  readonly #early: Float64Array;
  readonly #late: Float64Array;
  /** 1 = some row of the bucket had no sample of this trace. */
  readonly #gap: Uint8Array;
  #count = 0;
  #rowsPerBucket = 1;

  /** @param capacity most buckets at a time; the caller halves before there are more */
  constructor(traceCount: number, capacity: number) {
    this.#traceCount = traceCount;
    this.#fromS = new Float64Array(capacity);
    this.#toS = new Float64Array(capacity);
    this.#rows = new Int32Array(capacity);
    this.#early = new Float64Array(capacity * traceCount);
    this.#late = new Float64Array(capacity * traceCount);
    this.#gap = new Uint8Array(capacity * traceCount);
  }

  /** Adds a row; NaN = no sample. */
  add(timeS: number, values: Float64Array): void {
    if (this.#count > 0 && this.#rows[this.#count - 1]! < this.#rowsPerBucket) {
      this.#extendLast(timeS, values);
    } else {
      this.#openNew(timeS, values);
    }
  }

  /** Joins neighbouring buckets, so that there are half as many. */
  halve(): void {
    const before = this.#count;
    for (let source = 0; source < before; source += 2) this.#joinPair(source / 2, source);
    this.#count = Math.ceil(before / 2);
    this.#rowsPerBucket *= 2;
    this.points = 0;
    for (let bucket = 0; bucket < this.#count; bucket += 1) this.points += this.#pointsOf(bucket);
  }

  /** Gives every point in order of time. */
  emit(sink: PointSink): void {
    for (let bucket = 0; bucket < this.#count; bucket += 1) {
      const start = bucket * this.#traceCount;
      const [fromS, toS] = [this.#fromS[bucket]!, this.#toS[bucket]!];
      sink(fromS, (k) => this.#early[start + k]!);
      if (this.#rows[bucket] === 1) continue;
      if (this.#needsGapPoint(bucket)) {
        sink((fromS + toS) / 2, (k) =>
          this.#gap[start + k] === 1 ? Number.NaN : this.#early[start + k]!,
        );
      }
      sink(toS, (k) => this.#late[start + k]!);
    }
  }

  #openNew(timeS: number, values: Float64Array): void {
    const bucket = this.#count;
    const start = bucket * this.#traceCount;
    this.#fromS[bucket] = timeS;
    this.#toS[bucket] = timeS;
    this.#rows[bucket] = 1;
    this.#early.set(values, start);
    this.#late.set(values, start);
    for (let k = 0; k < this.#traceCount; k += 1) {
      this.#gap[start + k] = Number.isNaN(values[k]!) ? 1 : 0;
    }
    this.#count += 1;
    this.points += 1;
  }

  #extendLast(timeS: number, values: Float64Array): void {
    const bucket = this.#count - 1;
    const start = bucket * this.#traceCount;
    this.points -= this.#pointsOf(bucket);
    this.#toS[bucket] = timeS;
    this.#rows[bucket]! += 1;
    for (let k = 0; k < this.#traceCount; k += 1) {
      if (Number.isNaN(values[k]!)) this.#gap[start + k] = 1;
      else this.#include(start + k, values[k]!);
    }
    this.points += this.#pointsOf(bucket);
  }

  /** Puts bucket `source` and the one after it, if there is one, in place of bucket `target`. */
  #joinPair(target: number, source: number): void {
    const second = source + 1 < this.#count ? source + 1 : source;
    this.#fromS[target] = this.#fromS[source]!;
    this.#toS[target] = this.#toS[second]!;
    this.#rows[target] = this.#rows[source]! + (second === source ? 0 : this.#rows[second]!);
    for (let k = 0; k < this.#traceCount; k += 1) {
      const at = target * this.#traceCount + k;
      const one = source * this.#traceCount + k;
      const other = second * this.#traceCount + k;
      const thenEarly = this.#early[other]!;
      const thenLate = this.#late[other]!;
      const gap = this.#gap[one]! | this.#gap[other]!;
      this.#early[at] = this.#early[one]!;
      this.#late[at] = this.#late[one]!;
      this.#gap[at] = gap;
      if (Number.isNaN(thenEarly)) continue;
      this.#include(at, thenEarly);
      this.#include(at, thenLate);
    }
  }

  /** Widens the extremes at a place by a value that came after them. */
  #include(at: number, value: number): void {
    const early = this.#early[at]!;
    const late = this.#late[at]!;
    if (Number.isNaN(early)) {
      this.#early[at] = value;
      this.#late[at] = value;
    } else if (value < early && value < late) {
      this.#early[at] = Math.max(early, late);
      this.#late[at] = value;
    } else if (value > early && value > late) {
      this.#early[at] = Math.min(early, late);
      this.#late[at] = value;
    }
  }

  /** One row is that row; else two extremes, and a point between where a gap must be kept. */
  #pointsOf(bucket: number): number {
    if (this.#rows[bucket] === 1) return 1;
    return this.#needsGapPoint(bucket) ? 3 : 2;
  }

  /** A trace with samples *and* gaps: its extremes alone would be joined by a line. */
  #needsGapPoint(bucket: number): boolean {
    const end = (bucket + 1) * this.#traceCount;
    for (let at = bucket * this.#traceCount; at < end; at += 1) {
      if (this.#gap[at] === 1 && !Number.isNaN(this.#early[at]!)) return true;
    }
    return false;
  }
}
