import type { Fact, Finding, ReportData } from '../report/report-data.ts';
import { issueProblem, type RunIssue } from '../runs/run-issue.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { compareFigures } from './compare-figures.ts';
import type { ReplayResult } from './replay.ts';
import type { ReplayTraces } from './traces.ts';
import { verdictText } from './verdict-text.ts';

/** What a report says beside the replay's own result. */
export interface ReportContext {
  title: string;
  subtitle: string;
  facts: Fact[];
  issues: readonly RunIssue[];
  /** Rows or parts of the file that were left out or repaired. */
  losses: number;
  /** Names of the setups compared: one, or two. */
  names: readonly string[];
}

/** More of what was found in the file is counted, not listed. */
const MOST_ODDS = 200;

/** The report of a replay. */
export function replayReport(
  result: ReplayResult,
  traces: ReplayTraces,
  context: ReportContext,
): ReportData {
  const { timeS, panels } = traces.finish();
  const { names, issues } = context;
  const odds = issues.map(oddOf);
  const other = result.againstFigures;
  return {
    title: context.title,
    subtitle: context.subtitle,
    verdict: { held: result.held && verified(result), text: verdictText(result, context.losses) },
    facts: context.facts,
    timeS,
    panels,
    states: result.states,
    findings: [...result.findings, ...breaches(result), ...difference(result)],
    limits: result.limits.map(({ firstAtMs, ...limit }) => ({
      ...limit,
      ...(firstAtMs === undefined ? {} : { firstAtS: firstAtMs / 1000 }),
    })),
    odds: odds.slice(0, MOST_ODDS).concat(more(odds.length - MOST_ODDS)),
    ...(other && {
      comparison: {
        names: [names[0]!, names[1]!] as [string, string],
        rows: compareFigures(result.figures, other),
      },
    }),
    cautions: [...CAUTIONS],
  };
}

function verified(result: ReplayResult): boolean {
  return result.verification?.identical ?? true;
}

/** As the command line tells it, and whether it is in the charts. */
function oddOf(issue: RunIssue): { line: number; reason: string } {
  const { field, message, cure } = issueProblem('', issue);
  const place = field === undefined ? '' : `${field}: `;
  const parts = [place + message, issue.lost ? 'Left out.' : '', cure ?? ''];
  return { line: issue.line, reason: parts.filter((part) => part !== '').join(' ') };
}

function more(count: number): { line: number; reason: string }[] {
  return count > 0 ? [{ line: 0, reason: `and ${count} more` }] : [];
}

function breaches(result: ReplayResult): Finding[] {
  return result.limits
    .filter((limit) => limit.held === false)
    .map((limit) => ({
      atS: (limit.firstAtMs ?? 0) / 1000,
      severity: 'breach' as const,
      text: `${limit.id} broken: ${limit.title}. ${limit.detail}`,
    }));
}

function difference({ verification }: ReplayResult): Finding[] {
  const first = verification?.first;
  if (first === undefined) return [];
  const { stage, column, recorded, recomputed, line } = first;
  const text =
    `First difference from the recording, in ${stage}: ${column} in line ${line} ` +
    `is ${recorded}, the laptop computes ${recomputed}.`;
  return [{ atS: first.atMs / 1000, severity: 'breach', text }];
}
