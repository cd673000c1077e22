import uPlot from 'uplot';
import type { Finding, Severity } from '../report-data.ts';
import { RIGHT } from './look.ts';

/** Findings so close together in the picture that they share a mark. */
export interface Cluster {
  /** Left edge and width of the mark, pixels from the left end of the plot, chart's own size. */
  left: number;
  width: number;
  /** Places in the list of findings. */
  first: number;
  last: number;
  /** The gravest of them. */
  severity: Severity;
}

/** Diameter of a mark of one finding, and the least room between marks, pixels on the page. */
const PIN = 20;
const ROOM = 2;

const ORDER: readonly Severity[] = ['note', 'warning', 'breach'];

/** Gathers the findings in sight; `scale` as in `Look`. */
export function clusterFindings(
  chart: uPlot,
  findings: readonly Finding[],
  scale: number,
): Cluster[] {
  const { min, max } = chart.scales.x!;
  const found: Cluster[] = [];
  findings.forEach(({ atS, severity }, i) => {
    if (min == null || max == null || atS < min || atS > max) return;
    const left = chart.valToPos(atS, 'x') - (PIN / 2) * scale;
    const before = found.at(-1);
    if (before === undefined || left >= before.left + before.width + ROOM * scale) {
      found.push({ left, width: PIN * scale, first: i, last: i, severity });
      return;
    }
    before.last = i;
    before.width = (12 + 7.5 * clusterLabel(before).length) * scale;
    if (ORDER.indexOf(severity) > ORDER.indexOf(before.severity)) before.severity = severity;
  });
  const end = chart.bbox.width / uPlot.pxRatio + RIGHT * scale;
  for (const cluster of found) cluster.left = Math.min(cluster.left, end - cluster.width);
  return found;
}

/** `3`, or `3-5` with a dash for a range. */
export function clusterLabel({ first, last }: Pick<Cluster, 'first' | 'last'>): string {
  return first === last ? String(first + 1) : `${first + 1}\u2013${last + 1}`;
}
