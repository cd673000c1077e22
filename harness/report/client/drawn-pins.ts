import uPlot from 'uplot';
import type { Finding, Severity } from '../report-data.ts';
import { type Cluster, clusterFindings, clusterLabel } from './finding-clusters.ts';
import { canvasFont, type Look } from './look.ts';

/** The marks of the findings as part of the picture, for paper. */
export function drawPins(chart: uPlot, findings: readonly Finding[], look: Look): void {
  const { ctx, bbox } = chart;
  const pixel = look.scale * uPlot.pxRatio;
  ctx.save();
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.font = canvasFont(11 * pixel, 650);
  for (const cluster of clusterFindings(chart, findings, look.scale)) {
    const x = bbox.left + (cluster.left + cluster.width / 2) * uPlot.pxRatio;
    drawPin(ctx, { x, y: bbox.top + 12 * pixel }, cluster, look, pixel);
  }
  ctx.restore();
}

function drawPin(
  ctx: CanvasRenderingContext2D,
  { x, y }: { x: number; y: number },
  cluster: Cluster,
  look: Look,
  pixel: number,
): void {
  const theme = look.theme();
  const label = clusterLabel(cluster);
  const half = (cluster.width / 2) * uPlot.pxRatio - pixel;
  ctx.beginPath();
  outline(ctx, cluster.severity, x, y, half, pixel);
  ctx.fillStyle = cluster.severity === 'note' ? theme.card : theme.severity[cluster.severity];
  ctx.strokeStyle = theme.severity[cluster.severity];
  ctx.lineWidth = 1.5 * pixel;
  ctx.fill();
  ctx.stroke();
  ctx.fillStyle = theme.ink;
  ctx.fillText(label, x, y + 0.5 * pixel);
}

/** Round for a note, square for a warning, on its corner for a breach; wide ones are round. */
function outline(
  ctx: CanvasRenderingContext2D,
  severity: Severity,
  x: number,
  y: number,
  half: number,
  pixel: number,
): void {
  const tall = 9 * pixel;
  const isWide = half > tall;
  if (severity === 'breach' && !isWide) {
    const reach = tall * 1.2;
    ctx.moveTo(x, y - reach);
    ctx.lineTo(x + reach, y);
    ctx.lineTo(x, y + reach);
    ctx.lineTo(x - reach, y);
    ctx.closePath();
    return;
  }
  const radius = severity === 'note' || isWide ? tall : 3 * pixel;
  ctx.roundRect(x - half, y - tall, 2 * half, 2 * tall, radius);
}
