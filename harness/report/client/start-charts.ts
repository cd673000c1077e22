import type { ChartData } from '../chart-data.ts';
import { createTimeFormat } from '../format.ts';
import { DARK, LIGHT } from '../palette.ts';
import { wireControls } from './controls.ts';
import { jumpSpan } from './jump-span.ts';
import type { Look } from './look.ts';
import { printSharply } from './print-charts.ts';
import { createStage } from './stage.ts';
import { createTimeWindow } from './time-window.ts';

/** Brings the page to life: charts, cursor, zoom, jumps, print. */
export function startCharts(root: HTMLElement, data: ChartData): void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const view = createTimeWindow(data.timeS[0] ?? 0, data.timeS.at(-1) ?? 0);
  const look: Look = {
    theme: () => (dark.matches ? DARK : LIGHT),
    window: view,
    time: createTimeFormat(data.timeS.at(-1) ?? 0),
    scale: 1,
    gutter: root.clientWidth < 640 ? 48 : 62,
    live: true,
  };
  const show = (fromS: number, toS: number) => {
    view.show(...jumpSpan(fromS, toS));
    queueMicrotask(() => stage.putCursor(fromS));
  };
  const pick = (first: number, last: number) => {
    const ends = data.findings.slice(first, last + 1).map(({ atS, toS }) => toS ?? atS);
    show(data.findings[first]!.atS, Math.max(...ends));
  };
  const stage = createStage(root, data, look, pick);
  view.onChange(stage.refresh);
  dark.addEventListener('change', stage.repaint);
  new ResizeObserver(stage.fit).observe(root);
  wireControls(root, { window: view, cursorS: stage.cursorS, moveCursor: stage.moveCursor });
  wireJumps((button) => {
    const { finding, at } = button.dataset;
    if (finding !== undefined) pick(Number(finding), Number(finding));
    else show(Number(at), Number(at));
    bringIntoSight(root);
  });
  printSharply(data, look);
}

/** Times in the lists below lead to their place in the charts. */
function wireJumps(onJump: (button: HTMLElement) => void): void {
  for (const button of document.querySelectorAll<HTMLElement>('.jump')) {
    button.addEventListener('click', () => onJump(button));
  }
}

function bringIntoSight(root: HTMLElement): void {
  const calm = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
  root.focus({ preventScroll: true });
  root.scrollIntoView({ block: 'start', behavior: calm ? 'auto' : 'smooth' });
}
