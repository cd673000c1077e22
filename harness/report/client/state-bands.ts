import uPlot from 'uplot';
import type { StateKind, StateSpan } from '../report-data.ts';
import { canvasFont, type Look } from './look.ts';

/** Draws each state as a tinted band with its own hatching, a strong edge and its label. */
export function drawStateBands(
  chart: uPlot,
  states: readonly StateSpan[],
  look: Look,
  height: number,
): void {
  const { ctx, bbox } = chart;
  const pixel = look.scale * uPlot.pxRatio;
  const bottom = bbox.top + bbox.height;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bottom - height * pixel, bbox.width, height * pixel);
  ctx.clip();
  for (const state of states) {
    if (state.toS < look.window.fromS() || state.fromS > look.window.toS()) continue;
    const left = Math.max(bbox.left, chart.valToPos(state.fromS, 'x', true));
    const end = chart.valToPos(state.toS, 'x', true);
    const right = Math.min(bbox.left + bbox.width, Math.max(end, left + pixel));
    const box = { x: left, y: bottom - height * pixel, w: right - left, h: height * pixel };
    drawBand(ctx, box, state, look, pixel);
  }
  ctx.restore();
}

interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

function drawBand(
  ctx: CanvasRenderingContext2D,
  box: Box,
  state: StateSpan,
  look: Look,
  pixel: number,
): void {
  const theme = look.theme();
  const colour = theme.state[state.kind];
  ctx.save();
  ctx.beginPath();
  ctx.rect(box.x, box.y, box.w, box.h);
  ctx.clip();
  ctx.fillStyle = theme.card;
  ctx.fillRect(box.x, box.y, box.w, box.h);
  ctx.fillStyle = colour;
  ctx.strokeStyle = colour;
  ctx.globalAlpha = state.kind === 'off' ? 0.1 : 0.2;
  ctx.fillRect(box.x, box.y, box.w, box.h);
  ctx.globalAlpha = 0.55;
  hatch(ctx, box, state.kind, pixel);
  ctx.globalAlpha = 1;
  ctx.fillRect(box.x, box.y, box.w, 3 * pixel);
  ctx.fillStyle = theme.card;
  ctx.fillRect(box.x + box.w - pixel / 2, box.y, pixel / 2, box.h);
  drawLabel(ctx, box, state.label, look, pixel);
  ctx.restore();
}

/** Spacing and slope of the hatching; a state can be told by it alone. */
const HATCHES: Readonly<Record<StateKind, { every: number; slope: number } | null>> = {
  off: { every: 9, slope: 1 },
  ready: null,
  driving: null,
  stopping: { every: 6, slope: 0 },
  fault: { every: 4, slope: -1 },
};

function hatch(ctx: CanvasRenderingContext2D, box: Box, kind: StateKind, pixel: number): void {
  const pattern = HATCHES[kind];
  if (pattern === null) return;
  const step = pattern.every * pixel;
  const lean = pattern.slope * box.h;
  ctx.lineWidth = pixel;
  ctx.beginPath();
  const start = Math.floor((box.x - box.h) / step) * step;
  for (let x = start; x < box.x + box.w + box.h; x += step) {
    ctx.moveTo(x, box.y + box.h);
    ctx.lineTo(x + lean, box.y);
  }
  ctx.stroke();
}

/** The label on a plain ground, where there is room for all of it. */
function drawLabel(
  ctx: CanvasRenderingContext2D,
  box: Box,
  label: string,
  look: Look,
  pixel: number,
): void {
  ctx.font = canvasFont(11 * pixel, 500);
  const width = ctx.measureText(label).width;
  if (width + 10 * pixel > box.w) return;
  const centre = box.x + box.w / 2;
  const top = box.y + 3 * pixel;
  ctx.fillStyle = look.theme().card;
  ctx.globalAlpha = 0.82;
  ctx.fillRect(centre - width / 2 - 4 * pixel, top + 2 * pixel, width + 8 * pixel, 15 * pixel);
  ctx.globalAlpha = 1;
  ctx.fillStyle = look.theme().ink;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(label, centre, top + 9.5 * pixel);
}
