import { motorWords } from '../words/part-names.ts';
import { greatest } from './column.ts';
import type { Drive } from './drive.ts';
import type { MetricDefinition, MetricGroup } from './metric-definition.ts';
import { wayOf } from './motion-metrics.ts';

/** Less than this is no way over which to reckon, m. */
const SHORT = 0.5;

/** What the drive asked of motors and cells. */
export const POWER_METRICS: MetricGroup<
  | 'energy'
  | 'energyPerMetre'
  | 'peakCurrent'
  | `peakCurrent${1 | 2 | 3 | 4}`
  | 'lowestSupply'
  | 'windingRise'
  | `windingRise${1 | 2 | 3 | 4}`
> = {
  energy: {
    label: 'Energy',
    unit: 'J',
    digits: 1,
    resolution: 0.1,
    meaning: 'Drawn from the cells.',
    measure: energyOf,
  },
  energyPerMetre: {
    label: 'Energy per metre',
    unit: 'J/m',
    digits: 2,
    resolution: 0.01,
    meaning: 'Drawn from the cells for each metre of the way.',
    measure: (drive) => (wayOf(drive) < SHORT ? undefined : energyOf(drive) / wayOf(drive)),
  },
  peakCurrent: {
    label: 'Peak motor current',
    unit: 'A',
    digits: 2,
    resolution: 0.01,
    meaning: 'Greatest current of any motor, in either direction.',
    measure: ({ trace, whole }) =>
      trace.current.reduce((most, motor) => Math.max(most, greatest(motor, whole)), 0),
  },
  peakCurrent1: peakCurrentOf(1),
  peakCurrent2: peakCurrentOf(2),
  peakCurrent3: peakCurrentOf(3),
  peakCurrent4: peakCurrentOf(4),
  lowestSupply: {
    label: 'Lowest supply voltage',
    unit: 'V',
    digits: 2,
    resolution: 0.01,
    meaning: 'At the terminals of the pack, under load.',
    measure: ({ trace, whole: { from, to } }) => {
      let least = Infinity;
      for (let i = from; i < to; i++) least = Math.min(least, trace.supply[i]!);
      return least;
    },
  },
  windingRise: {
    label: 'Rise of winding temperature',
    unit: 'K',
    digits: 1,
    resolution: 0.1,
    meaning: 'Hottest moment of any winding, above its own start.',
    measure: ({ trace, whole }) =>
      shown(trace.winding.reduce((most, motor) => Math.max(most, rise(motor, whole)), 0)),
  },
  windingRise1: windingRiseOf(1),
  windingRise2: windingRiseOf(2),
  windingRise3: windingRiseOf(3),
  windingRise4: windingRiseOf(4),
};

function energyOf({ trace: { energy }, whole: { from, to } }: Drive): number {
  return energy[to - 1]! - energy[from]!;
}

function peakCurrentOf(number: number): MetricDefinition {
  return {
    label: ({ trace }) => `Peak current, ${motorWords(number - 1, trace.current.length)}`,
    unit: 'A',
    digits: 2,
    resolution: 0.01,
    meaning: 'Greatest current in either direction.',
    measure: ({ trace: { current }, whole }) =>
      current.length > 1 && number <= current.length
        ? greatest(current[number - 1]!, whole)
        : undefined,
  };
}

function windingRiseOf(number: number): MetricDefinition {
  return {
    label: ({ trace }) =>
      `Rise of winding temperature, ${motorWords(number - 1, trace.winding.length)}`,
    unit: 'K',
    digits: 1,
    resolution: 0.1,
    meaning: 'Hottest moment above its own start.',
    measure: ({ trace: { winding }, whole }) =>
      winding.length > 1 && number <= winding.length
        ? shown(rise(winding[number - 1]!, whole))
        : undefined,
  };
}

/** Nothing of a vehicle without a model of its motors' heat: its windings stay as they are. */
function shown(kelvin: number): number | undefined {
  return kelvin < 0.001 ? undefined : kelvin;
}

function rise(winding: Float64Array, { from, to }: Drive['whole']): number {
  let most = 0;
  for (let i = from; i < to; i++) most = Math.max(most, winding[i]! - winding[from]!);
  return most;
}
