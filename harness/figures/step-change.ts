import { demoGarage } from '../demo/create-garage.ts';
import { MANOEUVRES } from '../manoeuvres/manoeuvres.ts';
import { computeMetrics } from '../metrics/compute-metrics.ts';
import type { Metric } from '../metrics/metric.ts';
import { type Garage, loadGarage } from '../setup/load-garage.ts';
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
   * Difference over the value, or over 100 resolutions of the metric if that is more, %: 1 % is
   * what anybody could tell, or 1 % of the value.
   */
  percent: number;
  /** Difference over the value, however small that is, %. */
  ofValue: number;
}

/** The step that drives are simulated with, s. */
const STEP_S = 0.001;
/**
 * Each drive is made so often, with seeds from 1 on, and means are compared (ISO 7401 averages
 * runs, from memory): the least change flips bits of the receiver's noise, and with other noise one
 * and the same car answers a step of the steering in 62 or in 66 ms.
 */
const RUNS = 5;
/** Most that halving the step may change, %. */
const MOST = 1;

/**
 * Every manoeuvre that a demo car can drive, with the first of its setups for the vinyl floor.
 * Without yaw assist: it answers to each bit of the gyro's noise, and what is judged here is the
 * plant's step.
 */
export async function stepFixtures(): Promise<{ fixture: string; plan: SimulationPlan }[]> {
  const fixtures: { fixture: string; plan: SimulationPlan }[] = [];
  for (const name of ['hatch', 'coupe', 'forwarder']) {
    const garage = withoutAssist(await loadGarage(demoGarage(name)));
    const wishes = { setup: ['vinyl'] };
    const { car } = planInGarage(garage, wishes);
    for (const manoeuvre of MANOEUVRES) {
      if (manoeuvre.refuses?.(car) !== undefined) continue;
      const plan = planInGarage(garage, { ...wishes, manoeuvre: manoeuvre.name });
      fixtures.push({ fixture: `${name}, ${manoeuvre.name}`, plan });
    }
  }
  return fixtures;
}

function withoutAssist(garage: Garage): Garage {
  const setups = garage.setups.map((setup) => ({
    ...setup,
    yawAssist: { ...setup.yawAssist, authorityPercent: 0 },
  }));
  return { ...garage, setups };
}

/**
 * Drives with the whole and with half the step, and compares every metric.
 *
 * @param step the whole step, s
 */
export function changeByHalfStep(fixture: string, plan: SimulationPlan, step = STEP_S): StepChange {
  const seeds = Array.from({ length: RUNS }, (_, i) => i + 1);
  const coarse = seeds.map((seed) => metricsOf(plan, step, seed));
  const fine = seeds.map((seed) => metricsOf(plan, step / 2, seed));
  const told = new Map([...coarse, ...fine].flat().map((metric) => [metric.id, metric]));
  const changes = [...told.values()].map((metric) => changeOf(metric, coarse, fine));
  return {
    fixture,
    metrics: changes.length,
    worst: changes.reduce((a, b) => (b.percent > a.percent ? b : a)),
    tooSmallToTell: changes.filter(({ percent, ofValue }) => percent < MOST && ofValue >= MOST),
  };
}

function metricsOf(plan: SimulationPlan, stepS: number, seed: number): Metric[] {
  const { plant, car, manoeuvre, faults, setups } = plan;
  const { constants } = setups[0]!;
  const result = simulate({ plant, car, manoeuvre, faults, seed, constants, stepS });
  if (Math.abs(result.stepS - stepS) > 1e-12) throw new Error(`stepped by ${result.stepS} s`);
  return computeMetrics(result.trace, manoeuvre, car);
}

function changeOf(
  { id, label, unit, resolution }: Metric,
  coarse: readonly Metric[][],
  fine: readonly Metric[][],
): MetricChange {
  const valueIn = (run: readonly Metric[]) => run.find((metric) => metric.id === id)?.value ?? null;
  const pairs = coarse
    .map((run, i) => [valueIn(run), valueIn(fine[i]!)] as const)
    .filter((pair): pair is [number, number] => pair[0] !== null && pair[1] !== null);
  const shownIn = (runs: readonly Metric[][]) => runs.filter((run) => valueIn(run) !== null).length;
  const told = { label, unit, resolution };
  if (pairs.length < RUNS / 2) {
    // What noise decides whether to show is no change; what only one of the steps shows is.
    const apart = Math.abs(shownIn(coarse) - shownIn(fine));
    const percent = apart < RUNS - 1 ? 0 : Infinity;
    return { ...told, coarse: null, fine: null, percent, ofValue: percent };
  }
  const mean = (side: 0 | 1) => pairs.reduce((sum, pair) => sum + pair[side], 0) / pairs.length;
  const [before, after] = [mean(0), mean(1)];
  const apart = 100 * Math.abs(before - after);
  return {
    ...told,
    coarse: before,
    fine: after,
    percent: apart / Math.max(Math.abs(after), 100 * resolution),
    ofValue: apart === 0 ? 0 : apart / Math.abs(after),
  };
}
