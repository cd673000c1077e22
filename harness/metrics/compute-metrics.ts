import type { Manoeuvre, ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import { BEND_METRICS } from './bend-metrics.ts';
import { COURSE_METRICS } from './course-metrics.ts';
import { createDrive, type Drive } from './drive.ts';
import { METRIC_IDS, type Metric, type MetricId } from './metric.ts';
import type { MetricDefinition } from './metric-definition.ts';
import { MOTION_METRICS } from './motion-metrics.ts';
import { POWER_METRICS } from './power-metrics.ts';
import { RESPONSE_METRICS } from './response-metrics.ts';
import type { Trace } from './trace.ts';

const DEFINITIONS: Readonly<Record<MetricId, MetricDefinition>> = {
  ...BEND_METRICS,
  ...RESPONSE_METRICS,
  ...COURSE_METRICS,
  ...MOTION_METRICS,
  ...POWER_METRICS,
};

/**
 * The figures of a drive: first those the manoeuvre is driven for, then the rest in the order of
 * METRIC_IDS. Samples before 0 s are left out, and so are metrics that say nothing of this drive;
 * one the manoeuvre is driven for but that cannot be read off stays, with value null and the
 * reason.
 *
 * @param trace may end early, where a run broke off
 */
export function computeMetrics(trace: Trace, manoeuvre: Manoeuvre, car: ManoeuvreCar): Metric[] {
  const drive = createDrive(trace, manoeuvre, car);
  const rest = METRIC_IDS.filter((id) => !manoeuvre.headline.includes(id));
  const found = [
    ...manoeuvre.headline,
    ...rest.filter((id) => DEFINITIONS[id].isOf?.(drive) ?? true),
  ];
  const isEmpty = drive.after.from >= drive.after.to;
  const isCut = (trace.t[trace.count - 1] ?? 0) < manoeuvre.durationS(car) - SHORT;
  return found.flatMap((id) => {
    const definition = DEFINITIONS[id];
    const read = isEmpty ? ENDED : definition.measure(drive);
    if (read === undefined) return [];
    // Whatever else may be missing, there was no time for it.
    const value = isCut && typeof read === 'string' ? ENDED : read;
    const isNumber = typeof value === 'number' && Number.isFinite(value);
    if (!isNumber && !manoeuvre.headline.includes(id)) return [];
    return [metricOf(id, definition, value, drive)];
  });
}

const ENDED = 'The drive ended before it.';
/** Time by which a drive that was driven to its end may seem shorter, s. */
const SHORT = 0.1;

function metricOf(
  id: MetricId,
  { label, unit, digits, resolution, meaning }: MetricDefinition,
  value: number | string,
  drive: Drive,
): Metric {
  const name = typeof label === 'string' ? label : label(drive);
  const told = { id, label: name, unit, digits, resolution, meaning };
  if (typeof value === 'string') return { ...told, value: null, missing: value };
  if (Number.isFinite(value)) return { ...told, value: value + 0 };
  return { ...told, value: null, missing: 'The drive holds no number for it.' };
}
