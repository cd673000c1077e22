import type uPlot from 'uplot';
import { decimalsOf, type TimeFormat } from '../format.ts';
import type { Theme } from '../palette.ts';
import type { TimeWindow } from './time-window.ts';

/** How a chart is drawn: on the screen with cursor and zoom, or larger and still, for paper. */
export interface Look {
  theme(): Theme;
  window: TimeWindow;
  time: TimeFormat;
  /** How many times larger than its size on the page everything is drawn. */
  scale: number;
  /** Width of the gutter for the numbers of the y axes, pixels on the page. */
  gutter: number;
  /** Cursor, zoom and hooks of the page; none on paper. */
  live: boolean;
}

/** Space right of the plots, pixels on the page: half a time label. */
export const RIGHT = 26;

/** Same stack as the page. */
const FONTS = 'system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", sans-serif';

/** A font for uPlot, which multiplies by the density of the screen itself. */
export function axisFont(look: Look): string {
  return `${11 * look.scale}px ${FONTS}`;
}

/** A font for drawing in a hook, where pixels are those of the canvas. */
export function canvasFont(pixels: number, weight = 400): string {
  return `${weight} ${pixels}px ${FONTS}`;
}

const INCREMENTS = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900,
  1800, 3600, 7200, 14400,
];

/** The time axis; `labelled` says whether its times are written. */
export function timeAxis(look: Look, side: 0 | 2, labelled: boolean): uPlot.Axis {
  const k = look.scale;
  return {
    side,
    incrs: INCREMENTS,
    space: 76 * k,
    size: (labelled ? 22 : 8) * k,
    gap: 5 * k,
    font: axisFont(look),
    stroke: () => look.theme().muted,
    grid: { stroke: () => look.theme().grid, width: k },
    ticks: { show: false },
    values: (_chart, splits, _axis, _space, increment) =>
      splits.map((s) => (labelled ? look.time(s, decimalsFor(increment)) : '')),
  };
}

/** Decimals that show values at this spacing as they are. */
export function decimalsFor(increment: number): number {
  return decimalsOf([increment], 6);
}

/** The x scale of every chart is the window, whatever the data. */
export function windowScale(look: Look): uPlot.Scale {
  return { time: false, range: () => [look.window.fromS(), look.window.toS()] };
}

/** One cursor over all charts; a drag shows its stretch in every chart. */
export function sharedCursor(look: Look): uPlot.Cursor {
  if (!look.live) return { show: false };
  return {
    y: false,
    sync: { key: 'run', setSeries: false, scales: ['x', null] },
    drag: { x: true, y: false, setScale: false, dist: 4 },
    points: { size: 7, width: 1.5 },
    bind: {
      dblclick: () => () => {
        look.window.reset();
        return null;
      },
    },
  };
}

/** Ends a drag: the stretch becomes the window. */
export function zoomToSelection(look: Look): (chart: uPlot) => void {
  return (chart) => {
    const { left, width } = chart.select;
    if (width <= 0) return;
    const from = chart.posToVal(left, 'x');
    const to = chart.posToVal(left + width, 'x');
    chart.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
    look.window.show(from, to);
  };
}
