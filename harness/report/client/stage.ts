import type uPlot from 'uplot';
import type { ChartData } from '../chart-data.ts';
import { placePins } from './finding-pins.ts';
import type { Look } from './look.ts';
import { createPanelChart } from './panel-chart.ts';
import { createPanelReadout, cursorText, type PanelReadout } from './readout.ts';
import { createStripChart, STRIP_HEIGHT } from './strip-chart.ts';

/** All charts of the page as one. */
export interface Stage {
  /** Time under the cursor, seconds, if it is in sight. */
  cursorS(): number | undefined;
  putCursor(atS: number): void;
  /** Moves the cursor by a share of the window and speaks the values there. */
  moveCursor(share: number): void;
  /** After a change of the window. */
  refresh(): void;
  /** After a change of colours. */
  repaint(): void;
  /** After a change of the page's width. */
  fit(): void;
}

interface Drawn {
  chart: uPlot;
  figure: HTMLElement;
  readout: PanelReadout;
}

/** Below this width of the page the charts are lower and their gutter narrower, pixels. */
const NARROW = 640;

/** Draws the strip and every panel; `onPick` hears of clicks on the marks of findings. */
export function createStage(
  root: HTMLElement,
  data: ChartData,
  look: Look,
  onPick: (first: number, last: number) => void,
): Stage {
  const host = root.querySelector<HTMLElement>('#strip')!;
  const strip = createStripChart({
    data,
    look,
    width: host.clientWidth,
    host,
    onDraw: (chart) => placePins(chart, data.findings, onPick),
    onCursor: (chart) => showCursor(chart, data, look),
  });
  const panels = drawPanels(root, data, look);
  const all = [strip, ...panels.map(({ chart }) => chart)];
  for (const chart of all) dragWithFinger(chart, putCursor);

  function cursorS(): number | undefined {
    const { left } = strip.cursor;
    return left === undefined || left < 0 ? undefined : strip.posToVal(left, 'x');
  }

  function putCursor(atS: number): void {
    for (const chart of all) {
      chart.setCursor({ left: chart.valToPos(atS, 'x'), top: chart.over.clientHeight / 2 });
    }
  }

  function moveCursor(share: number): void {
    const { window: view } = look;
    const length = view.toS() - view.fromS();
    const step = share * length;
    const from = cursorS() ?? view.fromS() + length / 2 - step;
    const atS = Math.min(Math.max(from + step, view.fromS()), view.toS());
    putCursor(atS);
    speak(panels, data, look, strip.valToIdx(atS));
  }

  function refresh(): void {
    const at = cursorS();
    for (const chart of all) {
      chart.setScale('x', { min: look.window.fromS(), max: look.window.toS() });
    }
    if (at !== undefined) queueMicrotask(() => putCursor(at));
    showWindow(look);
  }

  function repaint(): void {
    const at = cursorS();
    for (const chart of all) chart.redraw(true, true);
    if (at !== undefined) queueMicrotask(() => putCursor(at));
  }

  function fit(): void {
    const narrow = root.clientWidth < NARROW;
    strip.setSize({ width: host.clientWidth, height: STRIP_HEIGHT });
    for (const { chart, figure } of panels) {
      const isLast = figure === panels.at(-1)?.figure;
      chart.setSize({ width: plotOf(figure).clientWidth, height: panelHeight(narrow, isLast) });
    }
  }

  refresh();
  return { cursorS, putCursor, moveCursor, refresh, repaint, fit };
}

function drawPanels(root: HTMLElement, data: ChartData, look: Look): Drawn[] {
  const narrow = root.clientWidth < NARROW;
  return data.panels.map((panel, i) => {
    const figure = root.querySelector<HTMLElement>(`.panel[data-chart="${i}"]`)!;
    const readout = createPanelReadout(figure, panel);
    const isLast = i === data.panels.length - 1;
    const chart = createPanelChart({
      panel,
      data,
      look,
      width: plotOf(figure).clientWidth,
      height: panelHeight(narrow, isLast),
      labelled: isLast,
      host: plotOf(figure),
      onDraw: (drawn) => noteWindow(figure, drawn),
      onCursor: (drawn) => readout.update(drawn),
    });
    wireLegend(figure, chart);
    return { chart, figure, readout };
  });
}

function panelHeight(narrow: boolean, isLast: boolean): number {
  return (narrow ? 118 : 146) + (isLast ? 14 : 0);
}

function plotOf(figure: HTMLElement): HTMLElement {
  return figure.querySelector<HTMLElement>('.plot')!;
}

/** A click on a trace's name hides it or shows it again. */
function wireLegend(figure: HTMLElement, chart: uPlot): void {
  for (const button of figure.querySelectorAll<HTMLButtonElement>('[data-trace]')) {
    button.addEventListener('click', () => {
      const show = button.getAttribute('aria-pressed') !== 'true';
      button.setAttribute('aria-pressed', String(show));
      chart.setSeries(Number(button.dataset.trace) + 1, { show });
    });
  }
}

/** A finger has no hover: sliding it along a chart moves the cursor. */
function dragWithFinger(chart: uPlot, putCursor: (atS: number) => void): void {
  chart.over.addEventListener('pointermove', (event) => {
    if (event.pointerType !== 'touch') return;
    const left = event.clientX - chart.over.getBoundingClientRect().left;
    putCursor(chart.posToVal(Math.min(Math.max(left, 0), chart.over.clientWidth), 'x'));
  });
}

/** What a chart shows can be read off its element. */
function noteWindow(figure: HTMLElement, chart: uPlot): void {
  const { min, max } = chart.scales.x!;
  figure.dataset.fromS = min?.toFixed(3) ?? '';
  figure.dataset.toS = max?.toFixed(3) ?? '';
}

function showWindow(look: Look): void {
  const { window: view, time } = look;
  const length = view.toS() - view.fromS();
  const decimals = length < 2 ? 2 : 1;
  const span = `${time(view.fromS(), decimals)} to ${time(view.toS(), decimals)}`;
  const text = view.isWhole() ? `Whole run (${time(length, 1)})` : span;
  const place = document.getElementById('window');
  if (place !== null) place.textContent = text;
}

function textAt(data: ChartData, index: number, look: Look): string {
  const reachS = (look.window.toS() - look.window.fromS()) * 0.004;
  return cursorText(data, index, look.time, reachS);
}

function showCursor(chart: uPlot, data: ChartData, look: Look): void {
  const place = document.getElementById('cursor');
  const { idx } = chart.cursor;
  if (place !== null) place.textContent = idx == null ? '' : textAt(data, idx, look);
}

function speak(panels: readonly Drawn[], data: ChartData, look: Look, index: number): void {
  const place = document.getElementById('spoken');
  if (place === null) return;
  const words = panels.map(({ readout }) => readout.words(index));
  place.textContent = [textAt(data, index, look), ...words].join('; ');
}
