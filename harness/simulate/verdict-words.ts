import type { Metric } from '../metrics/metric.ts';
import { formatNumber } from '../report/format.ts';
import type { SetupDrive } from './drive-setup.ts';

/**
 * How a drive went, in a sentence with its figure; where there is no balance to judge, the figure
 * that the manoeuvre is driven for comes first. Of a drive that ended early, why it did.
 */
export function handlingText(drive: SetupDrive): string {
  const { divergence } = drive.result;
  if (divergence !== undefined) {
    const { time, found, cause } = divergence;
    return `Ended at ${time.toFixed(2)} s: ${found}. ${cause}`;
  }
  return [figureFirst(drive), drive.verdict.text].filter(Boolean).join(' ');
}

/**
 * The same of each of several drives; and if none of them has a balance to judge, and each for the
 * same reason, that reason by itself.
 */
export function handlingTexts(drives: readonly SetupDrive[]): { texts: string[]; ofAll?: string } {
  const figures = drives.map(figureFirst);
  const [{ verdict }] = drives as [SetupDrive];
  const isOfAll =
    drives.length > 1 &&
    verdict.kind === 'none' &&
    drives.every((each) => each.result.divergence === undefined) &&
    drives.every((each, i) => each.verdict.text === verdict.text && figures[i] !== undefined);
  if (!isOfAll) return { texts: drives.map(handlingText) };
  return { texts: figures.map((figure) => figure!), ofAll: verdict.text };
}

/** What the manoeuvre is driven for, where the verdict does not say it all. */
function figureFirst({ verdict, metrics }: SetupDrive): string | undefined {
  const [told] = metrics;
  const course = metrics.find(({ id }) => id === 'courseMargin');
  if (course !== undefined) return courseText(course);
  if (verdict.kind !== 'none' || told === undefined) return undefined;
  if (told.value === null) return `${told.label}: none. ${told.missing}`;
  return `${told.label}: ${figureText(told)}.`;
}

/** Whether the car got through its course. */
function courseText({ value, missing }: Metric): string {
  if (value === null) return `Did not get through: ${missing}`;
  const gap = `${formatNumber(Math.abs(value), 2)} m`;
  return value < 0 ? `Leaves its course by ${gap}.` : `Gets through with ${gap} to spare.`;
}

/** A metric's value with its unit; a dash if this drive does not show it. */
export function figureText({ value, digits, unit }: Metric): string {
  if (value === null) return '–';
  const number = formatNumber(value, digits);
  return unit === '' || unit === '°' ? `${number}${unit}` : `${number} ${unit}`;
}

/** Whether the drives held every safety limit, and the bundle agrees. */
export function outcomeText(drives: readonly SetupDrive[]): string {
  return `${limitsText(drives)} ${bundleText(drives)}`;
}

function limitsText(drives: readonly SetupDrive[]): string {
  const ids = (held: boolean | null) =>
    new Set(
      drives.flatMap(({ limits }) =>
        limits.filter((limit) => limit.held === held).map(({ id }) => id),
      ),
    );
  const broken = [...ids(false)];
  return broken.length > 0
    ? `Broken safety limits: ${broken.join(', ')}.`
    : `All ${ids(true).size} safety limits put to the test held.`;
}

/** Whether the bundle repeated the drives bit for bit. */
export function bundleText(drives: readonly SetupDrive[]): string {
  const ticks = drives.reduce((sum, { verification }) => sum + verification.ticks, 0);
  const same = drives.every(({ verification }) => verification.identical);
  return same
    ? `The bundle for the hub computes all ${ticks} ticks bit for bit alike.`
    : 'The bundle for the hub computes something else.';
}
