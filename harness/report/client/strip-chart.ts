import uPlot from 'uplot';
import type { ChartData } from '../chart-data.ts';
import { drawPins } from './drawn-pins.ts';
import { drawFindings } from './finding-lines.ts';
import { type Look, RIGHT, sharedCursor, timeAxis, windowScale, zoomToSelection } from './look.ts';
import { drawStateBands } from './state-bands.ts';

/** Height of the strip on the page, pixels: times, marks of findings, states. */
export const STRIP_HEIGHT = 72;

/** Height of the bands of states at the bottom of the strip, pixels on the page. */
const BANDS = 22;

export interface StripPlan {
  data: ChartData;
  look: Look;
  width: number;
  host: HTMLElement;
  /** Called when the window or the size has changed. */
  onDraw?(chart: uPlot): void;
  onCursor?(chart: uPlot): void;
}

/** Time axis, room for the marks of findings, and a band for every state. */
export function createStripChart(plan: StripPlan): uPlot {
  const { data, look, width } = plan;
  const k = look.scale;
  const options: uPlot.Options = {
    width: width * k,
    height: STRIP_HEIGHT * k,
    padding: [0, RIGHT * k, 0, look.gutter * k],
    legend: { show: false },
    scales: { x: windowScale(look), y: { range: () => [0, 1] } },
    axes: [timeAxis(look, 0, true), { show: false }],
    series: [{}, { points: { show: false } }],
    cursor: { ...sharedCursor(look), points: { show: false } },
    hooks: {
      drawAxes: [(chart) => drawFindings(chart, data.findings, look)],
      draw: [
        (chart) => drawStateBands(chart, data.states, look, BANDS),
        ...(look.live ? [] : [(chart: uPlot) => drawPins(chart, data.findings, look)]),
        ...(plan.onDraw === undefined ? [] : [plan.onDraw]),
      ],
      ...(look.live ? { setSelect: [zoomToSelection(look)] } : {}),
      ...(plan.onCursor === undefined ? {} : { setCursor: [plan.onCursor] }),
    },
  };
  return new uPlot(options, [data.timeS, data.timeS.map(() => null)], plan.host);
}
