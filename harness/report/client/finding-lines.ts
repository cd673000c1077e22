import uPlot from 'uplot';
import type { Finding } from '../report-data.ts';
import type { Look } from './look.ts';

/** With more findings in sight than this their lines step back. */
const CROWD = 40;

/** A line where a finding begins, and a veil over its stretch. */
export function drawFindings(chart: uPlot, findings: readonly Finding[], look: Look): void {
  const { ctx, bbox } = chart;
  const pixel = look.scale * uPlot.pxRatio;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  const inSight = findings.filter(
    ({ atS, toS = atS }) => toS >= look.window.fromS() && atS <= look.window.toS(),
  );
  const lineAlpha = inSight.length > CROWD ? 0.25 : 0.85;
  for (const { atS, toS = atS, severity } of inSight) {
    const x = chart.valToPos(atS, 'x', true);
    const end = chart.valToPos(toS, 'x', true);
    ctx.fillStyle = look.theme().severity[severity];
    ctx.strokeStyle = ctx.fillStyle;
    ctx.globalAlpha = 0.09;
    ctx.fillRect(x, bbox.top, end - x, bbox.height);
    ctx.globalAlpha = lineAlpha;
    ctx.lineWidth = pixel;
    ctx.setLineDash([2 * pixel, 3 * pixel]);
    ctx.beginPath();
    ctx.moveTo(x, bbox.top);
    ctx.lineTo(x, bbox.top + bbox.height);
    ctx.stroke();
  }
  ctx.restore();
}
