import uPlot from 'uplot';
import type { ChartData } from '../chart-data.ts';
import { LIGHT } from '../palette.ts';
import type { Look } from './look.ts';
import { createPanelChart } from './panel-chart.ts';
import { createStripChart } from './strip-chart.ts';

/** Dots to a CSS pixel on paper: 288 to the inch. */
const DENSITY = 3;

/** Width between the margins of an A4 page, CSS pixels: (210 - 2 x 14) mm at 96 to the inch. */
const PAPER_WIDTH = 688;

const PANEL_HEIGHT = 118;

/**
 * Before printing, draws every chart again, light, as wide as the paper and in the density of
 * print; the charts of the screen stay as they are, hidden.
 */
export function printSharply(data: ChartData, screen: Look): void {
  let drawn: { chart: uPlot; sheet: HTMLElement }[] = [];
  let unfolded: HTMLDetailsElement[] = [];
  window.addEventListener('beforeprint', () => {
    const scale = Math.max(1, Math.ceil(DENSITY / uPlot.pxRatio));
    const look: Look = { ...screen, theme: () => LIGHT, scale, gutter: 52, live: false };
    drawn = [...document.querySelectorAll<HTMLElement>('[data-chart]')].map((place) => {
      const sheet = document.createElement('div');
      sheet.className = 'sheet';
      place.append(sheet);
      return { chart: drawFor(place.dataset.chart ?? '', data, look), sheet };
    });
    for (const { chart, sheet } of drawn) {
      sheet.append(chart.ctx.canvas);
    }
    document.body.classList.add('has-sheets');
    unfolded = [...document.querySelectorAll<HTMLDetailsElement>('[data-printed]:not([open])')];
    for (const fold of unfolded) fold.open = true;
  });
  window.addEventListener('afterprint', () => {
    for (const { chart, sheet } of drawn) {
      chart.destroy();
      sheet.remove();
    }
    drawn = [];
    for (const fold of unfolded) fold.open = false;
    document.body.classList.remove('has-sheets');
  });
}

function drawFor(name: string, data: ChartData, look: Look): uPlot {
  const host = document.createElement('div');
  if (name === 'strip') return createStripChart({ data, look, width: PAPER_WIDTH, host });
  return createPanelChart({
    panel: data.panels[Number(name)]!,
    data,
    look,
    width: PAPER_WIDTH,
    height: PANEL_HEIGHT,
    labelled: true,
    host,
  });
}
