import { stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { basename } from 'node:path';
import { V } from '../../lib/index.ts';
import { packageVersion } from '../../targets/package-version.ts';
import { UserError } from '../problems.ts';
import type { Fact } from '../report/report-data.ts';
import { checkReportPlace, writeReport } from '../report/write-report.ts';
import { MOST_ISSUES } from '../runs/import-run.ts';
import { IssueFold } from '../runs/issue-fold.ts';
import { knownColumn } from '../runs/run-columns.ts';
import { type ClockRepair, issueProblem, type RunIssue } from '../runs/run-issue.ts';
import { constantsHash } from '../setup/constants-hash.ts';
import { coreBundle } from './core-bundle.ts';
import type { ReplayEngine } from './core-runner.ts';
import { type ReplayResult, replay } from './replay.ts';
import { type PlanWishes, planReplay, type ReplayPlan } from './replay-plan.ts';
import { replayReport } from './replay-report.ts';
import { createRunSaver } from './run-saver.ts';
import { createReplayTraces } from './traces.ts';

/** How to replay a run. */
export interface ReplayRunOptions extends PlanWishes {
  mode: 'strict' | 'lenient';
  repairs: readonly ClockRepair[];
  engine: ReplayEngine;
  /** Where to write the report; not written if left out. */
  report?: string;
  /** Where to write the run with the recomputed outputs; not written if left out. */
  save?: string;
  /** Called after every chunk with the ticks replayed so far. */
  onProgress?: (ticks: number) => void;
  /** How the saved run came about, a sentence. */
  origin?: string;
}

/** A replay from file to verdict. */
export interface ReplayOutcome {
  run: string;
  plan: ReplayPlan;
  engine: ReplayEngine;
  hash: string;
  bundleBytes: number;
  result: ReplayResult;
  /** What was found in the file; the first MOST_ISSUES. */
  issues: RunIssue[];
  /** Number of issues, and of losses among them, shown or not. */
  issueCount: number;
  lossCount: number;
  /** Time stamps that were repaired as asked. */
  repairs: number;
  /** What was found, for people: like issues as one. */
  told: RunIssue[];
  /** Whether every limit held and, where it was asked for or possible, the run verified. */
  good: boolean;
  report?: string;
  saved?: string;
}

/**
 * From this size on, bytes, some quarter of an hour, a thread for the limits is worth its start.
 */
const LONG = 8e6;

/**
 * Replays a run file through the bundle that a hub would run.
 *
 * @throws UserError if run, garage or wishes do not fit
 */
export async function replayRun(run: string, options: ReplayRunOptions): Promise<ReplayOutcome> {
  const plan = await planReplay(run, options);
  if (options.report !== undefined) await checkReportPlace(options.report);
  const { constants, against } = plan;
  const code = await coreBundle(constants, plan.setups);
  const issues = createIssueList();
  const names = against === undefined ? plan.setups : [plan.setups[0]!, against.name];
  const traced = options.report === undefined ? undefined : namesOfTraces(plan);
  const recorded = plan.metadata?.columns?.some((name) => knownColumn(name)?.part === 'output');
  const traces =
    traced && createReplayTraces(constants.vehicle[V.LAYOUT]!, traced, recorded !== false);
  const origin = options.origin ?? `Inputs of ${basename(run)}, outputs recomputed by the core.`;
  const saver =
    options.save === undefined ? undefined : await createRunSaver(options.save, plan, origin);
  let ticks = 0;
  const result = await replay({
    run,
    read: { mode: options.mode, repairs: options.repairs, onIssue: issues.add },
    bundle: code,
    constants,
    ...(against && { against: against.constants }),
    verify: plan.asRecorded && plan.metadata?.startsAtPowerUp === true,
    engine: options.engine,
    aside: (await stat(run)).size > LONG && availableParallelism() > 1,
    ...(traces && { onTick: traces.observe }),
    onChunk: async (replayed) => {
      ticks += replayed.chunk.rows;
      options.onProgress?.(ticks);
      if (saver) await saver.take(replayed);
    },
  }).catch(async (error) => {
    if (saver) await saver.abort();
    throw error;
  });
  if (result.ticks === 0) {
    if (saver) await saver.abort();
    const found = issues.fold.told().map((issue) => issueProblem(run, issue));
    const cure = found.length > 0 ? 'Mend what is told above.' : 'Record it again.';
    const message = 'holds no tick that could be replayed.';
    throw new UserError([...found, { file: run, message, cure }]);
  }
  if (options.verify) {
    const missing = drivesMissing(result);
    if (missing.length > 0) {
      if (saver) await saver.abort();
      const cure = 'Record the outputs as well, or leave --verify out.';
      const message = `it does not hold ${missing.join(', ')}, what the motors were told.`;
      throw new UserError([{ file: run, field: '--verify', message, cure }]);
    }
  }
  if (saver) await saver.finish();
  const outcome: ReplayOutcome = {
    run,
    plan,
    engine: options.engine,
    hash: constantsHash(constants),
    bundleBytes: code.length,
    result,
    issues: issues.first,
    issueCount: issues.count,
    lossCount: issues.losses,
    repairs: issues.repairs,
    told: issues.fold.told(),
    good: result.held && (result.verification?.identical ?? true),
    ...(options.save !== undefined && { saved: options.save }),
  };
  if (traces && options.report !== undefined) {
    const facts = replayFacts(outcome);
    const title = `${plan.vehicle}: ${basename(run)}`;
    const replayed = `Replay of a recorded run, setup ${names.join(' against ')}.`;
    const subtitle = [replayed, plan.metadata?.origin ?? ''].join(' ').trim();
    const { repairs } = outcome;
    const losses = issues.losses + repairs;
    const context = { title, subtitle, facts, issues: outcome.told, losses, names };
    await writeReport(options.report, replayReport(result, traces, context));
    outcome.report = options.report;
  }
  return outcome;
}

/** Columns of the motors' commands that a run lacks; without them little is verified. */
function drivesMissing({ verification }: ReplayResult): string[] {
  return verification?.missing.filter((column) => column.startsWith('drive_')) ?? [];
}

/** What a reader wants to know of a replay beside its outcome. */
export function replayFacts(outcome: ReplayOutcome): Fact[] {
  const { plan, result } = outcome;
  const facts: Fact[] = [
    { label: 'Car', value: carOf(plan) },
    { label: 'Setup', value: plan.setups.join(', ') + howChosen(plan) },
    { label: 'Length', value: `${result.durationS.toFixed(2)} s, ${result.ticks} ticks` },
    { label: 'Core', value: `axlewright ${packageVersion()}, ${outcome.bundleBytes} bytes of ES5` },
    { label: 'Engine', value: outcome.engine === 'node' ? 'Node' : 'QuickJS' },
    { label: 'Constants', value: outcome.hash },
  ];
  if (plan.against) {
    const value =
      `${plan.against.name}, over the same inputs; its car would have moved otherwise. ` +
      `Findings and limits are those of ${plan.setups[0]}`;
    facts.splice(2, 0, { label: 'Against', value });
  }
  const { surface, notes = [] } = plan.metadata ?? {};
  if (surface !== undefined) facts.push({ label: 'Surface', value: surface });
  if (notes.length > 0) facts.push({ label: 'Notes', value: notes.join(' ') });
  return facts;
}

function howChosen({ asRecorded, isGuess, lacking }: ReplayPlan): string {
  if (asRecorded) return ' (as recorded)';
  const names = lacking.join(', ');
  if (isGuess) {
    const why = names === '' ? 'the run names none' : `it has no ${names}, which the run names`;
    return ` (the first of the garage: ${why})`;
  }
  return names === '' ? '' : ` (the garage has no ${names}, so that slots differ)`;
}

/** The car whose constants are used, and the run's own if that is another. */
function carOf({ vehicle, metadata }: ReplayPlan): string {
  const own = metadata?.vehicle ?? vehicle;
  return own === vehicle ? vehicle : `${vehicle}, though the run is of ${own}`;
}

/** Keeps the first issues and counts them all, so that memory stays flat. */
function createIssueList() {
  const list = {
    first: [] as RunIssue[],
    fold: new IssueFold(),
    count: 0,
    losses: 0,
    repairs: 0,
    add,
  };
  function add(issue: RunIssue): void {
    list.count++;
    if (issue.lost) list.losses++;
    if (issue.repair?.done) list.repairs++;
    list.fold.add(issue);
    if (list.first.length < MOST_ISSUES) list.first.push(issue);
  }
  return list;
}

function namesOfTraces(plan: ReplayPlan): string[] {
  return plan.against === undefined ? [plan.setups[0]!] : [plan.setups[0]!, plan.against.name];
}
