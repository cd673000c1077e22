import { V } from '../../lib/index.ts';
import type { LimitVerdict } from '../check/limit-monitor.ts';
import type { Verdict } from '../metrics/compute-verdict.ts';
import type {
  Fact,
  Finding,
  Handling,
  LimitRow,
  MetricRow,
  MetricsTable,
  ReportData,
} from '../report/report-data.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { describePath } from './describe-path.ts';
import { drivePanels, SETUP_STYLES } from './drive-panels.ts';
import type { SetupDrive } from './drive-setup.ts';
import type { SimulationPlan } from './plan-simulation.ts';
import { figureText, handlingTexts, outcomeText } from './verdict-words.ts';

/** The report of one or more simulated drives of one manoeuvre. */
export function simulationReport(
  plan: SimulationPlan,
  drives: readonly SetupDrive[],
  facts: readonly Fact[],
): ReportData {
  const { manoeuvre, car, plant } = plan;
  const layout = plan.setups[0]!.constants.vehicle[V.LAYOUT]!;
  const names = drives.map(({ name }) => name);
  const { timeS, panels } = drivePanels(layout, drives);
  const { texts, ofAll } = handlingTexts(drives);
  const told = drives.map(({ name, result }, i) => {
    return { name, trace: result.trace, verdict: texts[i]! };
  });
  return {
    title: `${plan.vehicle}: ${lowerFirst(manoeuvre.title)}`,
    subtitle: `Simulated on ${plan.surface}, setup ${listed(names)}. ${manoeuvre.meaning}`,
    verdict: { held: drives.every(isSound), text: outcomeText(drives) },
    facts: [
      ...facts,
      ...(ofAll === undefined ? [] : [{ label: 'Balance', value: ofAll, isLong: true }]),
    ],
    handling: drives.map((drive, i) => handlingOf(drive, i, texts[i]!)),
    timeS,
    panels,
    states: drives[0]!.states,
    findings: drives.flatMap((drive) => findingsOf(drive, drives.length > 1)),
    limits: mergeLimits(drives).map(({ firstAtMs, ...limit }): LimitRow => {
      return firstAtMs === undefined ? limit : { ...limit, firstAtS: firstAtMs / 1000 };
    }),
    odds: [],
    path: describePath(plant, manoeuvre, car, told),
    metrics: metricsTable(drives, manoeuvre.headline),
    ...(drives.length > 1 && { overlay: names }),
    cautions: [SIMULATED, ...CAUTIONS],
  };
}

function isSound({ held, verification }: SetupDrive): boolean {
  return held && verification.identical;
}

/** Of several drives the worst outcome of each limit. */
export function mergeLimits(drives: readonly SetupDrive[]): LimitVerdict[] {
  const [first] = drives;
  return first!.limits.map((limit, i) => {
    const all = drives.map(({ name, limits }) => ({ name, limit: limits[i]! }));
    const worst =
      all.find((each) => each.limit.held === false) ?? all.find((each) => each.limit.held === true);
    if (worst === undefined || drives.length === 1) return limit;
    return { ...worst.limit, detail: `${worst.name}: ${worst.limit.detail}` };
  });
}

const WORDS: Readonly<Record<Verdict['kind'], Pick<Handling, 'word' | 'tone'>>> = {
  understeer: { word: 'Understeer', tone: 'fair' },
  neutral: { word: 'Neutral', tone: 'good' },
  oversteer: { word: 'Oversteer', tone: 'fair' },
  spin: { word: 'Spin', tone: 'bad' },
  none: { word: '', tone: 'plain' },
};

const ENDED = { word: 'Ended early', tone: 'bad' } as const;

function handlingOf(drive: SetupDrive, i: number, text: string): Handling {
  const words = drive.result.divergence ? ENDED : WORDS[drive.verdict.kind];
  return { name: drive.name, style: SETUP_STYLES[i]!, hue: i, ...words, text };
}

const SIMULATED =
  'This drive was computed, not driven: a floor, a tyre or a gear that differs from its numbers ' +
  'makes the car behave otherwise. Try it slowly first.';

function metricsTable(drives: readonly SetupDrive[], headline: readonly string[]): MetricsTable {
  const known = new Map(drives.flatMap(({ metrics }) => metrics.map((each) => [each.id, each])));
  const rows = [...known.values()].map(({ id, label, meaning }): MetricRow => {
    const found = drives.map(({ metrics }) => metrics.find((each) => each.id === id));
    const values = found.map((each) =>
      each === undefined || each.value === null ? null : figureText(each),
    );
    const missing = found.find((each) => each?.value === null)?.missing;
    return {
      label,
      values,
      meaning: missing === undefined ? meaning : `${meaning} Not shown: ${lowerFirst(missing)}`,
      isHeadline: headline.includes(id),
    };
  });
  return {
    names: drives.map(({ name }) => name),
    styles: SETUP_STYLES.slice(0, drives.length),
    rows,
  };
}

function findingsOf({ name, findings }: SetupDrive, isNamed: boolean): Finding[] {
  if (!isNamed) return findings;
  return findings.map((finding) => ({ ...finding, text: `${name}: ${finding.text}` }));
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join() : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function lowerFirst(text: string): string {
  return `${text[0]!.toLowerCase()}${text.slice(1)}`;
}
