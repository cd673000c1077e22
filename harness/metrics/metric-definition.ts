import type { Drive } from './drive.ts';
import type { MetricId } from './metric.ts';

/** How a metric is measured and told. */
export interface MetricDefinition {
  label: string | ((drive: Drive) => string);
  /** As the reader is to see it; empty = none. */
  unit: string;
  digits: number;
  /** See Metric. */
  resolution: number;
  meaning: string;
  /** Whether to show it although it is not what the drive is about; left out = always. */
  isOf?(drive: Drive): boolean;
  /** The value in `unit`, a sentence why there is none, or undefined to leave it out. */
  measure(drive: Drive): number | string | undefined;
}

/** Some metrics. */
export type MetricGroup<Id extends MetricId> = Readonly<Record<Id, MetricDefinition>>;

/** rad to degrees. */
export const DEGREES = 180 / Math.PI;

/** For metrics that only matter where a manoeuvre is driven for them. */
export const ifAsked = () => false;
