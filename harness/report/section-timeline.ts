import type { ChartData, ChartPanel } from './chart-data.ts';
import { escapeHtml } from './html.ts';
import { swatch } from './icons.ts';
import { LIGHT } from './palette.ts';
import type { StateKind } from './report-data.ts';
import type { TraceStyle } from './trace-style.ts';

/**
 * The frame that the page's script fills with charts; a note where scripts do not run.
 *
 * @param names of the setups drawn in every panel, in the order of the styles; empty for one
 */
export function timelineSection(charts: ChartData, names: readonly string[]): string {
  return `<section class="timeline" aria-labelledby="timeline-title">
<h2 id="timeline-title">The run on one time axis</h2>
<noscript><p class="plain-note">The charts are drawn by a script, and scripts are off here.
Everything else on this page is complete without it.</p></noscript>
${
  charts.timeS.length === 0
    ? '<p class="plain-note">There is no row to draw.</p>'
    : frame(charts, names)
}
</section>`;
}

function frame(charts: ChartData, names: readonly string[]): string {
  return `<div class="charts" id="charts" tabindex="0" role="group" aria-label="Charts" \
aria-describedby="keys">
<div class="chart-head">
${toolbar()}
<div class="strip" id="strip" data-chart="strip"></div>
</div>
${styleKey(names)}
<div class="panels">
${charts.panels.map(panel).join('\n')}
</div>
${stateKey(charts, names[0])}
<p class="help by-mouse" id="keys">Drag over a chart to zoom in, double-click for the whole run. \
Keys:
<kbd>+</kbd> <kbd>\u2212</kbd> zoom, <kbd>0</kbd> whole run, <kbd>\u2190</kbd> <kbd>\u2192</kbd>
move the cursor, with <kbd>Shift</kbd> the window. A click on a name hides its line.</p>
<p class="help by-finger">Slide a finger along a chart to move the cursor; zoom with the buttons,
or double-tap for the whole run. A tap on a name hides its line.</p>
<p class="unseen" id="spoken" role="status"></p>
</div>`;
}

function toolbar(): string {
  const button = (act: string, label: string, sign: string) =>
    `<button type="button" data-act="${act}" aria-label="${label}" ` +
    `title="${label}">${sign}</button>`;
  return `<div class="toolbar">
<p class="window" id="window"></p>
<p class="cursor" id="cursor"></p>
<div class="buttons" role="group" aria-label="Zoom">
${button('earlier', 'Earlier', '\u2190')}
${button('later', 'Later', '\u2192')}
${button('in', 'Zoom in', '+')}
${button('out', 'Zoom out', '\u2212')}
${button('all', 'Whole run', 'All')}
</div>
</div>`;
}

function panel(chart: ChartPanel, index: number): string {
  const traces = chart.traces.map(
    (trace, i) => `<li><button type="button" aria-pressed="true" data-trace="${i}">\
${swatch(trace.style, trace.hue % LIGHT.series.length)}\
<span class="name">${escapeHtml(trace.label)}</span>\
</button><span class="value" data-value="${i}"></span></li>`,
  );
  const unit = chart.unit === '' ? '' : ` <span class="unit">${escapeHtml(chart.unit)}</span>`;
  return `<figure class="panel" data-chart="${index}">
<figcaption>
<h3>${escapeHtml(chart.title)}${unit}</h3>
<ul class="legend">
${traces.join('\n')}
</ul>
</figcaption>
<div class="plot"></div>
</figure>`;
}

const STYLES: readonly TraceStyle[] = ['solid', 'dashed', 'dotted'];

function styleKey(names: readonly string[]): string {
  if (names.length === 0) return '';
  const items = names.map((name, i) => `${swatch(STYLES[i]!, null)} ${escapeHtml(name)}`);
  return `<p class="style-key">${items.join('\n')}</p>`;
}

const KINDS: readonly StateKind[] = ['off', 'ready', 'driving', 'stopping', 'fault'];

/**
 * Only the kinds that occur, each with the labels it has in this run.
 *
 * @param whose the setup that had them, where there are several
 */
function stateKey(charts: ChartData, whose: string | undefined): string {
  const items = KINDS.flatMap((kind) => {
    const labels = new Set(charts.states.filter((s) => s.kind === kind).map((s) => s.label));
    if (labels.size === 0) return [];
    return [`<li><i class="state ${kind}"></i>${escapeHtml([...labels].join(', '))}</li>`];
  });
  if (items.length === 0) return '';
  const head = whose === undefined ? '' : `<li>States of ${escapeHtml(whose)}:</li>\n`;
  return `<ul class="state-key" aria-label="States">\n${head}${items.join('\n')}\n</ul>`;
}
