import { demoGarage } from '../demo/create-garage.ts';
import { MANOEUVRES } from '../manoeuvres/manoeuvres.ts';
import { computeMetrics } from '../metrics/compute-metrics.ts';
import type { Metric } from '../metrics/metric.ts';
import { loadGarage } from '../setup/load-garage.ts';
import { planInGarage, type SimulationPlan } from '../simulate/plan-simulation.ts';
import { simulate } from '../simulate/simulate.ts';

/** What halving the plant's step did to the metrics of one drive. */
export interface StepChange {
  /** Car and manoeuvre. */
  fixture: string;
  metrics: number;
  worst: MetricChange;
  /** Metrics whose value changed by more than 1 %, yet by less than their resolution. */
  tooSmallToTell: MetricChange[];
}

/** A metric at the step of 1 ms and at half of it. */
export interface MetricChange {
  label: string;
  unit: string;
  resolution: number;
  coarse: number | null;
  fine: number | null;
  /**
   * Difference over the value, or over 100 resolutions of the metric if that is more, %: 1 % is what
   * anybody could tell, or 1 % of the value.
   */
  percent: number;
  /** Difference over the value, however small that is, %. */
  ofValue: number;
}

/** The step that drives are simulated with, s. */
const STEP_S = 0.001;
const SEED = 1;
/** Most that halving the step may change, %. */
const MOST = 1;

/** Every manoeuvre that a demo car can drive, with the first of its setups for the vinyl floor. */
export async function stepFixtures(): Promise<{ fixture: string; plan: SimulationPlan }[]> {
  const fixtures: { fixture: string; plan: SimulationPlan }[] = [];
  for (const name of ['hatch', 'coupe', 'forwarder']) {
    const garage = await loadGarage(demoGarage(name));
    const wishes = { setup: ['vinyl'], seed: SEED };
    const { car } = planInGarage(garage, wishes);
    for (const manoeuvre of MANOEUVRES) {
      if (manoeuvre.refuses?.(car) !== undefined) continue;
      const plan = planInGarage(garage, { ...wishes, manoeuvre: manoeuvre.name });
      fixtures.push({ fixture: `${name}, ${manoeuvre.name}`, plan });
    }
  }
  return fixtures;
}

/**
 * Drives twice, with the whole and with half the step, and compares every metric.
 *
 * @param step the whole step, s
 */
export function changeByHalfStep(fixture: string, plan: SimulationPlan, step = STEP_S): StepChange {
  const [coarse, fine] = [step, step / 2].map((stepS) => metricsOf(plan, stepS));
  if (coarse!.length !== fine!.length) throw new Error(`${fixture}: not the same metrics`);
  const changes = fine!.map((metric) => changeOf(coarse!, metric));
  return {
    fixture,
    metrics: changes.length,
    worst: changes.reduce((a, b) => (b.percent > a.percent ? b : a)),
    tooSmallToTell: changes.filter(({ percent, ofValue }) => percent < MOST && ofValue >= MOST),
  };
}

function metricsOf(plan: SimulationPlan, stepS: number): Metric[] {
  const { plant, car, manoeuvre, faults, seed, setups } = plan;
  const { constants } = setups[0]!;
  const result = simulate({ plant, car, manoeuvre, faults, seed, constants, stepS });
  if (Math.abs(result.stepS - stepS) > 1e-12) throw new Error(`stepped by ${result.stepS} s`);
  return computeMetrics(result.trace, manoeuvre, car);
}

function changeOf(
  coarse: readonly Metric[],
  { id, label, unit, resolution, value }: Metric,
): MetricChange {
  const before = coarse.find((metric) => metric.id === id)?.value ?? null;
  return {
    label,
    unit,
    resolution,
    coarse: before,
    fine: value,
    percent: percentOf(before, value, 100 * resolution),
    ofValue: percentOf(before, value, 0),
  };
}

/** A value that is there with one step only has changed without bounds. */
function percentOf(coarse: number | null, fine: number | null, least: number): number {
  if (coarse === fine) return 0;
  if (coarse === null || fine === null) return Infinity;
  return (100 * Math.abs(coarse - fine)) / Math.max(Math.abs(fine), least);
}
