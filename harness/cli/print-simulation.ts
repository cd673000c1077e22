import type { LimitVerdict } from '../check/limit-monitor.ts';
import type { Verdict } from '../metrics/compute-verdict.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import type { SetupDrive } from '../simulate/drive-setup.ts';
import type { SimulationOutcome } from '../simulate/run-simulation.ts';
import { mergeLimits } from '../simulate/simulation-report.ts';
import { bundleText, figureText, handlingText, handlingTexts } from '../simulate/verdict-words.ts';
import { columns, nearPath, paint, say } from './terminal.ts';
import { toldOnce } from './told-once.ts';

/** Prints a simulation for people: how it handled first, then why. */
export function printSimulation(outcome: SimulationOutcome): void {
  const { drives, plan } = outcome;
  const where = `${plan.vehicle}, ${plan.manoeuvre.name} on ${plan.surface}, seed ${plan.seed}`;
  say(paint.dim(where));
  const { texts, ofAll } = handlingTexts(drives);
  list(drives.map((drive, i) => [paint.bold(drive.name), colourOf(drive)(texts[i]!)]));
  if (ofAll !== undefined) say(`  ${ofAll}`);
  for (const note of plan.notes) say(paint.yellow(`note ${note}`));
  say();
  printMetrics(outcome);
  printFindings(drives);
  printLimits(mergeLimits(drives));
  if (drives.some(({ result }) => result.divergence !== undefined))
    say('All data until the drive ended are kept.');
  const text = bundleText(drives);
  say(drives.every(({ verification }) => verification.identical) ? text : paint.red(text));
  for (const run of outcome.runs) say(`run: ${nearPath(run)}`);
  if (outcome.report) say(`report: ${nearPath(outcome.report)}`);
}

/** A simulation for machines. */
export function simulationJson({ plan, drives, good, runs, report }: SimulationOutcome): unknown {
  return {
    vehicle: plan.vehicle,
    surface: plan.surface,
    manoeuvre: plan.manoeuvre.name,
    seed: plan.seed,
    faults: plan.faults,
    notes: plan.notes,
    good,
    drives: drives.map(({ result, ...drive }, i) => ({
      ...drive,
      headline: handlingText(drives[i]!),
      hash: constantsHash(plan.setups[i]!.constants),
      ticks: result.rows.count,
      leadInS: result.leadInS,
      stepS: result.stepS,
      energies: result.energies,
      divergence: result.divergence,
      ...(runs[i] !== undefined && { run: runs[i] }),
    })),
    report,
  };
}

const COLOURS: Readonly<Record<Verdict['kind'], (text: string) => string>> = {
  none: (text) => text,
  neutral: paint.green,
  understeer: paint.yellow,
  oversteer: paint.yellow,
  spin: paint.red,
};

function colourOf({ result, verdict }: SetupDrive): (text: string) => string {
  return result.divergence ? paint.red : COLOURS[verdict.kind];
}

function printMetrics({ plan, drives }: SimulationOutcome): void {
  const rows = plan.manoeuvre.headline.flatMap((id) => {
    const found = drives.map(({ metrics }) => metrics.find((metric) => metric.id === id));
    const label = found.find((metric) => metric !== undefined)?.label;
    if (label === undefined) return [];
    return [[label, ...found.map((each) => (each === undefined ? '–' : figureText(each)))]];
  });
  const heads = drives.length === 1 ? [] : [['', ...drives.map(({ name }) => paint.dim(name))]];
  say(paint.bold('Figures'));
  list([...heads, ...rows]);
  for (const { label, missing } of drives[0]!.metrics) {
    if (missing !== undefined) say(paint.dim(`  ${label}: ${missing}`));
  }
  say();
}

/** More of them are in the report. */
const MOST_FINDINGS = 12;

function printFindings(drives: readonly SetupDrive[]): void {
  const all = toldOnce(
    drives
      .flatMap(({ name, findings }) =>
        findings.map(({ atS, text }) => {
          return { atS, text: drives.length === 1 ? text : `${name}: ${text}` };
        }),
      )
      .sort((a, b) => a.atS - b.atS),
  );
  if (all.length === 0) return;
  say(paint.bold('What happened'));
  list(all.slice(0, MOST_FINDINGS));
  if (all.length > MOST_FINDINGS) say(`  and ${all.length - MOST_FINDINGS} more`);
  say();
}

/** Broken limits with what was seen, and why one does not apply; of the others only which. */
function printLimits(limits: readonly LimitVerdict[]): void {
  const broken = limits.filter(({ held }) => held === false);
  const strange = limits.filter(({ applies }) => applies === false);
  const ids = (held: boolean | null) =>
    limits
      .filter((limit) => limit.held === held && !strange.includes(limit))
      .map(({ id }) => id)
      .join(' ');
  say(paint.bold('Safety limits'));
  list([
    ...broken.map(({ id, title, detail }) => [paint.red('BROKEN'), `${id} ${title}. ${detail}`]),
    ...(ids(true) === '' ? [] : [[paint.green('held'), ids(true)]]),
    ...(ids(null) === '' ? [] : [[paint.dim('not tested'), paint.dim(ids(null))]]),
    ...strange.map(({ id, detail }) => [
      paint.dim('does not apply'),
      paint.dim(`${id}: ${detail}`),
    ]),
  ]);
  say();
}

function list(rows: readonly (readonly string[])[]): void {
  for (const line of columns(rows.map((row) => ['', ...row]))) say(line);
}
