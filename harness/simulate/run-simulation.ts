import { extname, resolve } from 'node:path';
import { packageVersion } from '../../targets/package-version.ts';
import { UserError } from '../problems.ts';
import { coreBundle } from '../replay/core-bundle.ts';
import type { ReplayEngine } from '../replay/core-runner.ts';
import type { Fact } from '../report/report-data.ts';
import { checkReportPlace, writeReport } from '../report/write-report.ts';
import { checkRunPlaces } from '../runs/check-run-places.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { headerName } from '../words/header-name.ts';
import { driveSetup, type SetupDrive } from './drive-setup.ts';
import { describeFault } from './fault-words.ts';
import { planSimulation, type SimulationPlan, type SimulationWishes } from './plan-simulation.ts';
import { saveDrive } from './save-drive.ts';
import { simulationReport } from './simulation-report.ts';

/** How to simulate. */
export interface RunSimulationOptions extends SimulationWishes {
  /** Engine that recomputes the drive with the bundle. */
  engine: ReplayEngine;
  /** Where to write the run; of several setups each name gets that of its setup. */
  out?: string;
  /** true = replace runs of that name. */
  overwrite: boolean;
  /** Where to write the report. */
  report?: string;
  /** Called before each drive with the name of its setup. */
  onDrive?: (setup: string) => void;
}

/** A simulation from garage to verdict. */
export interface SimulationOutcome {
  plan: SimulationPlan;
  drives: SetupDrive[];
  facts: Fact[];
  /** Whether all went well: limits held, bundle agreed, drives came to their end. */
  good: boolean;
  /** Paths of the runs written. */
  runs: string[];
  report?: string;
}

/**
 * Drives a manoeuvre with every setup asked for, judges it, and writes runs and report; also those
 * of a drive that had to end early.
 *
 * @throws UserError if garage or wishes do not fit, or a file cannot be written
 */
export async function runSimulation(options: RunSimulationOptions): Promise<SimulationOutcome> {
  const plan = await planSimulation(options);
  if (options.report !== undefined) await checkReportPlace(options.report);
  if (options.out !== undefined) {
    const paths = runPaths(plan, options.out);
    await checkRunPlaces(paths, options.overwrite, '--out');
    refuseSharedPlace(paths, options.report);
  }
  // A bundle is code alone as far as the core goes; each drive hands it its own constants.
  const { constants, name: first } = plan.setups[0]!;
  const code = await coreBundle(constants, [first]);
  const drives: SetupDrive[] = [];
  for (const [i, { name }] of plan.setups.entries()) {
    options.onDrive?.(name);
    drives.push(await driveSetup(plan, i, code, options.engine));
  }
  const facts = factsOf(plan, drives, options.engine);
  const outcome: SimulationOutcome = {
    plan,
    drives,
    facts,
    good: drives.every(({ good }) => good),
    runs: options.out === undefined ? [] : await saveAll(plan, drives, options.out, options),
  };
  if (options.report === undefined) return outcome;
  await writeReport(options.report, simulationReport(plan, drives, facts));
  return { ...outcome, report: options.report };
}

/** @throws UserError if the report would lie over a run */
function refuseSharedPlace(paths: readonly string[], report: string | undefined): void {
  if (report === undefined || !paths.some((path) => resolve(path) === resolve(report))) return;
  const message = 'is named for a run and for the report; nothing was written.';
  throw new UserError([{ file: report, field: '--report', message, cure: 'Name another file.' }]);
}

async function saveAll(
  plan: SimulationPlan,
  drives: readonly SetupDrive[],
  out: string,
  { overwrite }: RunSimulationOptions,
): Promise<string[]> {
  const { manoeuvre, seed } = plan;
  const paths = runPaths(plan, out);
  for (const [i, { name, result }] of drives.entries()) {
    const path = paths[i]!;
    const drive = {
      rows: result.rows,
      constants: plan.setups[i]!.constants,
      vehicle: plan.vehicle,
      setups: [name],
      surface: plan.surface,
      seed,
      origin:
        `Simulated, not driven: manoeuvre ${manoeuvre.name}, which begins ` +
        `${result.leadInS.toFixed(2)} s after power-up.`,
      notes: [...faultTexts(plan), ...endNotes(result)],
    };
    await saveDrive(path, drive, overwrite);
  }
  return paths;
}

function faultTexts({ faults, plant }: SimulationPlan): string[] {
  return faults.map((span) => describeFault(span, plant.motors.length));
}

function endNotes({ divergence }: SetupDrive['result']): string[] {
  if (divergence === undefined) return [];
  return [`Ended at ${divergence.time.toFixed(2)} s: ${divergence.found}. ${divergence.cause}`];
}

/** Where the run of each setup goes. */
function runPaths({ setups }: SimulationPlan, out: string): string[] {
  if (setups.length === 1) return [out];
  const names = setups.map(({ name }) => headerName(name));
  // Some names differ only in what a file's name cannot hold.
  const areUnique = new Set(names).size === names.length;
  return names.map((name, i) => nameFor(out, areUnique ? name : `${i + 1}-${name}`));
}

function nameFor(out: string, end: string): string {
  const extension = extname(out);
  return `${out.slice(0, out.length - extension.length)}-${end}${extension}`;
}

function factsOf(
  plan: SimulationPlan,
  drives: readonly SetupDrive[],
  engine: ReplayEngine,
): Fact[] {
  const { manoeuvre, plant, faults, setups } = plan;
  const { result } = drives[0]!;
  const lastS = Math.max(...drives.map((drive) => drive.result.trace.t.at(-1) ?? 0));
  const facts: Fact[] = [
    { label: 'Car', value: plan.vehicle },
    { label: 'Setup', value: setups.map(({ name }) => name).join(', ') },
    { label: 'Surface', value: `${plan.surface}, friction ${plant.ground.base.friction}` },
    { label: 'Manoeuvre', value: manoeuvre.name },
    {
      label: 'Length',
      value: `${lastS.toFixed(2)} s after ${result.leadInS.toFixed(2)} s of arming`,
    },
    {
      label: 'Simulated in',
      value: `steps of ${result.stepS * 1000} ms, seed ${plan.seed}`,
    },
    {
      label: 'Core',
      value:
        `axlewright ${packageVersion()}, in the loop and again ` +
        `in ${engine === 'node' ? 'Node' : 'QuickJS'}`,
    },
    { label: 'Constants', value: setups.map((each) => constantsHash(each.constants)).join(', ') },
  ];
  if (faults.length > 0)
    facts.push({ label: 'Faults', value: faultTexts(plan).join(' '), isLong: true });
  for (const note of plan.notes) facts.push({ label: 'Note', value: note, isLong: true });
  facts.push({ label: 'Where the manoeuvre comes from', value: manoeuvre.source, isLong: true });
  return facts;
}
