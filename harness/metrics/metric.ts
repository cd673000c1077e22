/** One figure of a drive. Magnitudes: a mirrored drive has the same. */
export interface Metric {
  id: MetricId;
  /** For a table, such as "Path radius". */
  label: string;
  /** In `unit`; null = this drive does not show it, and `missing` says why. */
  value: number | null;
  /** As the reader is to see it; empty = none. */
  unit: string;
  /** Decimals worth showing. */
  digits: number;
  /**
   * Least difference, in `unit`, that a builder could measure or feel: a tape is read to 5 mm, a
   * protractor on the floor to 0.1°, a hub counts ms and ticks every 10, its converters tell 10 mA
   * and 10 mV, its gyro 0.1°/s. Assumptions; two values that are nearer are the same.
   */
  resolution: number;
  /** How it is measured and what it tells, in a sentence or two. */
  meaning: string;
  missing?: string;
}

/** Every metric there is, in the order of a table. */
export const METRIC_IDS = [
  'understeerGradient',
  'understeerGradientPerG',
  'characteristicSpeed',
  'criticalSpeed',
  'yawRateGain',
  'balance',
  'pathRadius',
  'radiusRatio',
  'lateralAcceleration',
  'sideslip',
  'yawRate',
  'yawResponseTime',
  'yawPeakTime',
  'yawOvershoot',
  'lateralResponseTime',
  'tbFactor',
  'yawLag',
  'tuckIn',
  'courseMargin',
  'headingChange',
  'sideways',
  'yawTurned',
  'turnTime',
  'centreDrift',
  'topSpeed',
  'timeToTopSpeed',
  'entrySpeed',
  'distance',
  'reactionTime',
  'stoppingTime',
  'stoppingDistance',
  'deceleration',
  'rollBack',
  'wheelSlip',
  'wheelSlipTime',
  'energy',
  'energyPerMetre',
  'peakCurrent',
  'peakCurrent1',
  'peakCurrent2',
  'peakCurrent3',
  'peakCurrent4',
  'lowestSupply',
  'windingRise',
  'windingRise1',
  'windingRise2',
  'windingRise3',
  'windingRise4',
] as const;

/** Name of a metric in `--json` and in manoeuvres. */
export type MetricId = (typeof METRIC_IDS)[number];
