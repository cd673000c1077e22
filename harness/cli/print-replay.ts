import type { LimitVerdict } from '../check/limit-monitor.ts';
import { formatProblem } from '../problems.ts';
import { compareFigures, describeFigures } from '../replay/compare-figures.ts';
import { type ReplayOutcome, replayFacts } from '../replay/replay-run.ts';
import { verdictText } from '../replay/verdict-text.ts';
import { issueProblem } from '../runs/run-issue.ts';
import { columns, nearPath, paint, say } from './terminal.ts';
import { toldOnce } from './told-once.ts';

/** More of them are counted, not listed. */
const MOST_LINES = 20;

/** Prints a replay for people. */
export function printReplay(outcome: ReplayOutcome): void {
  const { result } = outcome;
  say(paint.bold(nearPath(outcome.run)));
  const { origin } = outcome.plan.metadata ?? {};
  list([
    ...replayFacts(outcome).map(({ label, value }) => [label, value]),
    ...(origin === undefined ? [] : [['Origin', origin]]),
  ]);
  say();
  printIssues(outcome);
  if (result.findings.length > 0) {
    say(paint.bold('What happened'));
    list(toldOnce(result.findings));
    say();
  }
  printFigures(outcome);
  say(paint.bold('Safety limits'));
  list(result.limits.map(limitRow));
  say();
  const { verification } = result;
  if (verification?.first) {
    const { stage, column, line, atMs, recorded, recomputed } = verification.first;
    say(paint.red(`First difference at ${(atMs / 1000).toFixed(2)} s, line ${line}, in ${stage}:`));
    say(`  ${column} was recorded as ${recorded}, the laptop computes ${recomputed}.`);
  }
  const text = verdictText(result, outcome.lossCount + outcome.repairs);
  say(outcome.good ? paint.green(text) : paint.red(text));
  if (outcome.saved) say(`run: ${nearPath(outcome.saved)}`);
  if (outcome.report) say(`report: ${nearPath(outcome.report)}`);
}

/** A replay for machines. */
export function replayJson(outcome: ReplayOutcome): unknown {
  const { plan, ...rest } = outcome;
  return {
    ...rest,
    vehicle: plan.vehicle,
    setups: plan.setups,
    against: plan.against?.name,
    asRecorded: plan.asRecorded,
  };
}

function list(rows: readonly (readonly string[])[]): void {
  const lines = columns(rows.slice(0, MOST_LINES).map((row) => ['', ...row]));
  for (const line of lines) say(line);
  if (rows.length > MOST_LINES) say(`  and ${rows.length - MOST_LINES} more`);
}

function printIssues({ run, told, issueCount, lossCount }: ReplayOutcome): void {
  if (issueCount === 0) return;
  say(paint.yellow(`Found in the file: ${issueCount}, ${lossCount} of them left out`));
  list(told.map((issue) => [formatProblem(issueProblem(run, issue))]));
  say();
}

function printFigures({ plan, result }: ReplayOutcome): void {
  if (result.againstFigures && plan.against) {
    const rows = compareFigures(result.figures, result.againstFigures);
    say(paint.bold('The same inputs with two setups'));
    list([
      ['', plan.setups[0]!, plan.against.name],
      ...rows.map(({ label, a, b }) => [label, a, b]),
    ]);
  } else {
    say(paint.bold('Figures'));
    list(describeFigures(result.figures).map(({ label, value }) => [label, value]));
  }
  say();
}

function limitRow({ id, title, held, applies, detail }: LimitVerdict): string[] {
  if (held === false) return [id, paint.red('BROKEN'), `${title}. ${detail}`];
  if (held) return [id, paint.green('held'), title];
  if (applies === false) return [id, paint.dim('does not apply'), `${title}. ${detail}`];
  return [id, paint.dim('not tested'), title];
}
