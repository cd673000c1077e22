import { computeMetrics } from '../metrics/compute-metrics.ts';
import { computeVerdict, type Verdict } from '../metrics/compute-verdict.ts';
import type { Metric } from '../metrics/metric.ts';
import type { Fault } from '../plant/fault.ts';
import type { ReplayEngine } from '../replay/core-runner.ts';
import type { Finding } from '../report/report-data.ts';
import { describeFault, faultWords } from './fault-words.ts';
import { type DriveJudgement, judgeDrive } from './judge-drive.ts';
import type { SimulationPlan } from './plan-simulation.ts';
import { longestLeadIn, type SimulationResult, simulate } from './simulate.ts';

/** One setup of a plan, driven and judged. */
export interface SetupDrive extends DriveJudgement {
  name: string;
  result: SimulationResult;
  verdict: Verdict;
  metrics: Metric[];
  /** Whether every limit held, the bundle agrees, and the drive came to its end. */
  good: boolean;
}

/**
 * Drives the manoeuvre of a plan with one of its setups and judges it.
 *
 * @param index of the setup
 * @param bundle script of the core; see targets/SPEC.md
 * @throws UserError if the vehicle is impossible
 */
export async function driveSetup(
  plan: SimulationPlan,
  index: number,
  bundle: string,
  engine: ReplayEngine,
): Promise<SetupDrive> {
  const { manoeuvre, car, plant, faults, seed } = plan;
  const { name, constants } = plan.setups[index]!;
  const leadInS = longestLeadIn(plan.setups.map((setup) => setup.constants));
  const result = simulate({ plant, car, constants, manoeuvre, faults, seed, leadInS });
  const judgement = await judgeDrive(result, constants, bundle, engine);
  const { divergence, trace } = result;
  return {
    name,
    result,
    ...judgement,
    findings: [
      ...faultFindings(plan, trace.t.at(-1) ?? 0),
      ...judgement.findings,
      ...endOf(result),
    ].sort((a, b) => a.atS - b.atS),
    verdict: computeVerdict(trace, manoeuvre, car),
    metrics: computeMetrics(trace, manoeuvre, car),
    good: judgement.held && judgement.verification.identical && divergence === undefined,
  };
}

/** @param endS of the drive, s: what was to come after it never happened */
function faultFindings({ manoeuvre, car, plant, faults }: SimulationPlan, endS: number): Finding[] {
  const motors = plant.motors.length;
  const words = (fault: Fault) => faultWords(fault, motors);
  const scripted = (manoeuvre.faults?.(car) ?? []).map(
    (change): Finding => ({
      atS: change.atS,
      severity: 'note',
      text: `${change.faults.map(words).join('; ') || 'All faults are mended'}.`,
    }),
  );
  const asked = faults.map(
    (span): Finding => ({
      atS: span.fromS,
      ...(span.toS !== Infinity && { toS: span.toS }),
      severity: 'note',
      text: describeFault(span, motors),
    }),
  );
  return [...scripted, ...asked].filter(({ atS }) => atS <= endS);
}

function endOf({ divergence }: SimulationResult): Finding[] {
  if (divergence === undefined) return [];
  const { time, found, cause } = divergence;
  return [{ atS: time, severity: 'breach', text: `The drive ended here: ${found}. ${cause}` }];
}
