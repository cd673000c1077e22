import uPlot from 'uplot';
import type { ChartData, ChartPanel, ChartTrace } from '../chart-data.ts';
import { formatNumber } from '../format.ts';
import { DASHES } from '../palette.ts';
import { drawFindings } from './finding-lines.ts';
import {
  axisFont,
  decimalsFor,
  type Look,
  RIGHT,
  sharedCursor,
  timeAxis,
  windowScale,
  zoomToSelection,
} from './look.ts';

/** What a panel's chart is made of. */
export interface PanelPlan {
  panel: ChartPanel;
  data: ChartData;
  look: Look;
  /** Size on the page, pixels. */
  width: number;
  height: number;
  /** Whether times are written below this chart. */
  labelled: boolean;
  host: HTMLElement;
  /** Called when the window, the size or the colours have changed. */
  onDraw?(chart: uPlot): void;
  onCursor?(chart: uPlot): void;
}

/** Draws one panel with its findings behind the traces. */
export function createPanelChart(plan: PanelPlan): uPlot {
  const { panel, data, look, width, height } = plan;
  const k = look.scale;
  const range = withRoom(panel.range ?? fittedRange(panel));
  const options: uPlot.Options = {
    width: width * k,
    height: height * k,
    padding: [6 * k, RIGHT * k, 0, 0],
    legend: { show: false },
    scales: { x: windowScale(look), y: { range: () => range } },
    axes: [timeAxis(look, 2, plan.labelled), valueAxis(look)],
    series: [{}, ...panel.traces.map((trace) => series(trace, look))],
    cursor: sharedCursor(look),
    hooks: {
      drawAxes: [
        (chart) => drawZero(chart, look),
        (chart) => drawFindings(chart, data.findings, look),
      ],
      ...(plan.onDraw === undefined ? {} : { draw: [plan.onDraw] }),
      ...(look.live ? { setSelect: [zoomToSelection(look)] } : {}),
      ...(plan.onCursor === undefined ? {} : { setCursor: [plan.onCursor] }),
    },
  };
  const columns: uPlot.AlignedData = [data.timeS, ...panel.traces.map((trace) => trace.values)];
  return new uPlot(options, columns, plan.host);
}

function valueAxis(look: Look): uPlot.Axis {
  const k = look.scale;
  return {
    size: look.gutter * k,
    gap: 7 * k,
    space: 21 * k,
    font: axisFont(look),
    stroke: () => look.theme().muted,
    grid: { stroke: () => look.theme().grid, width: k },
    ticks: { show: false },
    values: (_chart, splits, _axis, _space, increment) =>
      splits.map((value) => formatNumber(value, decimalsFor(increment))),
  };
}

function series(trace: ChartTrace, look: Look): uPlot.Series {
  const colour = () => {
    const colours = look.theme().series;
    return colours[trace.hue % colours.length]!;
  };
  return {
    label: trace.label,
    stroke: colour,
    width: (trace.style === 'dotted' ? 1.75 : 1.4) * look.scale,
    dash: DASHES[trace.style].map((length) => length * look.scale),
    spanGaps: false,
    points: points(trace, look),
  };
}

/** Samples show as dots where few are in sight; one that stands alone between gaps always. */
function points(trace: ChartTrace, look: Look): uPlot.Series.Points {
  const alone = loneSamples(trace.values);
  return {
    size: 4 * look.scale,
    space: 14 * look.scale,
    width: look.scale,
    filter: (_chart, _series, areAllShown) => (areAllShown ? null : alone),
  };
}

function loneSamples(values: readonly (number | null)[]): number[] {
  const places: number[] = [];
  values.forEach((value, i) => {
    const hasNeighbour = (values[i - 1] ?? null) !== null || (values[i + 1] ?? null) !== null;
    if (value !== null && !hasNeighbour) places.push(i);
  });
  return places;
}

/** Over the whole run, so that zooming in time never changes the heights. */
function fittedRange(panel: ChartPanel): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (const { values } of panel.traces) {
    for (const value of values) {
      if (value === null) continue;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
  }
  if (least > greatest) return [0, 1];
  if (least === greatest) return [least - 1, greatest + 1];
  return [least, greatest];
}

/** A line along the edge is still seen whole. */
function withRoom([least, greatest]: [number, number]): [number, number] {
  const room = (greatest - least) * 0.05;
  return [least - room, greatest + room];
}

function drawZero(chart: uPlot, look: Look): void {
  const { min, max } = chart.scales.y!;
  if (min == null || max == null || min >= 0 || max <= 0) return;
  const { ctx, bbox } = chart;
  const y = Math.round(chart.valToPos(0, 'y', true));
  ctx.save();
  ctx.fillStyle = look.theme().zero;
  const thickness = Math.max(1, Math.round(look.scale * uPlot.pxRatio));
  ctx.fillRect(bbox.left, y - thickness / 2, bbox.width, thickness);
  ctx.restore();
}
