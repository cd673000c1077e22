import type { Manoeuvre, ManoeuvreCar, Span } from '../manoeuvres/manoeuvre.ts';
import { findSideslip } from './find-sideslip.ts';
import type { Trace } from './trace.ts';

/** A drive with everything that several metrics read. */
export interface Drive {
  trace: Trace;
  manoeuvre: Manoeuvre;
  car: ManoeuvreCar;
  /** Time of that which it is about, s. */
  actionS: number;
  /** All samples of the manoeuvre; the arming before it is left out. */
  whole: Samples;
  /** Those from the action on. */
  after: Samples;
  /** Those of the parts the manoeuvre names; undefined if it has none. */
  steady: Samples | undefined;
  sweep: Samples | undefined;
  /** Sideslip angle over the full circle, rad; see `findSideslip`. */
  sideslip: Float64Array;
}

/** Samples `from` to before `to`. */
export interface Samples {
  from: number;
  to: number;
}

/** @param car of the drive; the manoeuvre's times depend on it */
export function createDrive(trace: Trace, manoeuvre: Manoeuvre, car: ManoeuvreCar): Drive {
  const actionS = manoeuvre.actionS?.(car) ?? 0;
  const during = (span: Span | undefined) => span && samplesOf(trace, span);
  return {
    trace,
    manoeuvre,
    car,
    actionS,
    whole: samplesOf(trace, { fromS: 0, toS: Infinity }),
    after: samplesOf(trace, { fromS: actionS, toS: Infinity }),
    steady: during(manoeuvre.steady?.(car)),
    sweep: during(manoeuvre.sweep?.(car)),
    sideslip: findSideslip(trace),
  };
}

/** Room for rounding in a sample's time, s. */
const ROUNDING = 1e-9;

function samplesOf({ t, count }: Trace, { fromS, toS }: Span): Samples {
  let from = 0;
  while (from < count && t[from]! < fromS - ROUNDING) from++;
  let to = from;
  while (to < count && t[to]! <= toS + ROUNDING) to++;
  return { from, to };
}
