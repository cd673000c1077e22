import { emptyTrace } from '../../harness/metrics/empty-trace.ts';
import type { Trace } from '../../harness/metrics/trace.ts';

/** Columns of single numbers that a formula may give for a time. */
type Row = Partial<
  Record<
    Exclude<
      keyof Trace,
      'count' | 't' | 'slipRatio' | 'slipAngle' | 'load' | 'drive' | 'current' | 'winding'
    >,
    number
  >
>;

/**
 * A trace from formulas; what they leave out is 0, but speed and sideslip follow from vx and vy.
 */
export function traceOf(row: (t: number) => Row, fromS: number, toS: number, tick = 0.01): Trace {
  const first = Math.round(fromS / tick);
  const count = Math.round(toS / tick) - first + 1;
  const trace = emptyTrace(count);
  for (let i = 0; i < count; i++) {
    const t = (first + i) * tick;
    trace.t[i] = t;
    const { vx = 0, vy = 0 } = row(t);
    trace.speed[i] = Math.sign(vx) * Math.hypot(vx, vy);
    trace.sideslip[i] = vx === 0 ? 0 : Math.atan2(vy, Math.abs(vx));
    for (const [name, value] of Object.entries(row(t))) {
      const column = trace[name as keyof Row];
      column[i] = value;
    }
  }
  return trace;
}
