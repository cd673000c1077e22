/** The stretch of time that every chart shows. */
export interface TimeWindow {
  fromS(): number;
  toS(): number;
  isWhole(): boolean;
  /** Shows this stretch, as far as the run goes; a shorter one than can be seen is widened. */
  show(fromS: number, toS: number): void;
  /** Divides the length by `factor` about `centreS`; below 1 it grows. */
  zoom(factor: number, centreS?: number): void;
  /** Moves by a share of the length, positive = later. */
  move(share: number): void;
  reset(): void;
  onChange(listener: () => void): void;
}

/** Shortest stretch worth looking at, seconds: a few ticks. */
const LEAST_S = 0.05;

/** @param firstS start of the run @param lastS end of the run, seconds */
export function createTimeWindow(firstS: number, lastS: number): TimeWindow {
  const wholeTo = lastS > firstS ? lastS : firstS + 1;
  const least = Math.min(LEAST_S, wholeTo - firstS);
  const listeners: (() => void)[] = [];
  let from = firstS;
  let to = wholeTo;

  function show(wantedFrom: number, wantedTo: number): void {
    if (!(Number.isFinite(wantedFrom) && Number.isFinite(wantedTo))) return;
    const centre = (wantedFrom + wantedTo) / 2;
    const length = Math.min(Math.max(wantedTo - wantedFrom, least), wholeTo - firstS);
    const start = Math.min(Math.max(centre - length / 2, firstS), wholeTo - length);
    if (start === from && start + length === to) return;
    from = start;
    to = start + length;
    for (const listener of listeners) listener();
  }

  return {
    fromS: () => from,
    toS: () => to,
    isWhole: () => from <= firstS && to >= wholeTo,
    show,
    zoom(factor, centreS = (from + to) / 2) {
      const length = (to - from) / factor;
      const place = (centreS - from) / (to - from);
      show(centreS - place * length, centreS + (1 - place) * length);
    },
    move(share) {
      const step = (to - from) * share;
      show(from + step, to + step);
    },
    reset: () => show(firstS, wholeTo),
    onChange: (listener) => {
      listeners.push(listener);
    },
  };
}
