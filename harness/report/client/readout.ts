import type uPlot from 'uplot';
import type { ChartData, ChartPanel } from '../chart-data.ts';
import { decimalsOf, formatNumber, type TimeFormat } from '../format.ts';
import type { Finding } from '../report-data.ts';

/** Shows the values of one panel under the cursor in its legend. */
export interface PanelReadout {
  update(chart: uPlot): void;
  /** The same in words, for those who listen. */
  words(index: number): string;
}

const NO_SAMPLE = '\u2013';

/** @param figure the panel's element, with one output a trace */
export function createPanelReadout(figure: HTMLElement, panel: ChartPanel): PanelReadout {
  const outputs = panel.traces.map((_, i) => figure.querySelector(`[data-value="${i}"]`));
  const decimals = panel.traces.map(({ values }) => decimalsOf(values));
  const text = (trace: number, index: number) => {
    const value = panel.traces[trace]!.values[index];
    return value == null ? NO_SAMPLE : formatNumber(value, decimals[trace]!);
  };
  outputs.forEach((output, i) => {
    if (output instanceof HTMLElement)
      output.style.minWidth = `${widest(panel, i, decimals[i]!)}ch`;
  });
  return {
    update(chart) {
      const index = chart.cursor.idx;
      outputs.forEach((output, i) => {
        if (output !== null) output.textContent = index == null ? '' : text(i, index);
      });
    },
    words: (index) =>
      panel.traces.map(({ label }, i) => `${label} ${text(i, index)} ${panel.unit}`).join(', '),
  };
}

/** Characters the longest value needs, so that nothing jumps as the cursor moves. */
function widest(panel: ChartPanel, trace: number, decimals: number): number {
  let most = 1;
  for (const value of panel.traces[trace]!.values) {
    if (value !== null) most = Math.max(most, formatNumber(value, decimals).length);
  }
  return most;
}

/**
 * What stands at the cursor: time, state, and the finding that is there.
 * @param reachS a moment this near counts as being there, seconds
 */
export function cursorText(
  data: ChartData,
  index: number,
  time: TimeFormat,
  reachS: number,
): string {
  const atS = data.timeS[index]!;
  const state = data.states.find(({ fromS, toS }) => fromS <= atS && atS < toS);
  const place = state === undefined ? time(atS) : `${time(atS)}, ${state.label}`;
  const finding = nearest(data.findings, atS, reachS);
  return finding === undefined ? place : `${place}. ${finding.text}`;
}

/** Of those within reach the one that began nearest. */
function nearest(findings: readonly Finding[], atS: number, reachS: number): Finding | undefined {
  const here = findings.filter(
    (f) => f.atS - reachS <= atS && atS <= Math.max(f.atS, f.toS ?? f.atS) + reachS,
  );
  const away = (f: Finding) => Math.abs(f.atS - atS);
  return here.reduce<Finding | undefined>(
    (best, f) => (best === undefined || away(f) < away(best) ? f : best),
    undefined,
  );
}
