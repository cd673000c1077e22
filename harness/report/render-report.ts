import { createHash } from 'node:crypto';
import { type ChartData, inOrder, toChartData } from './chart-data.ts';
import { clientBundle } from './client-bundle.ts';
import { createTimeFormat } from './format.ts';
import { escapeHtml, jsonForScript } from './html.ts';
import { PAGE_CSS } from './page-css.ts';
import { PATH_CSS } from './path-css.ts';
import { PRINT_CSS } from './print-css.ts';
import type { ReportData } from './report-data.ts';
import { findingsSection } from './section-findings.ts';
import { limitsSection } from './section-limits.ts';
import { metricsSection } from './section-metrics.ts';
import { pathSection } from './section-path.ts';
import { briefSection, summarySection } from './section-summary.ts';
import { comparisonSection, oddsSection, statesSection } from './section-tables.ts';
import { timelineSection } from './section-timeline.ts';
import { themeCss } from './theme-css.ts';

/** Tells a report from other pages, near its beginning. */
export const REPORT_MARK = '<meta name="generator" content="axlewright">';

/**
 * One complete HTML document that needs nothing but itself: style, script and data are inside,
 * and its content policy forbids every request. Same data, same bytes.
 * @throws RangeError when a trace is not as long as the time axis, or the axis falls
 */
export function renderReport(data: ReportData): string {
  const charts = toChartData(data);
  const client = clientBundle();
  return `<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
${REPORT_MARK}
<meta http-equiv="Content-Security-Policy" content="${contentPolicy(client.script)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escapeHtml(data.title)}</title>
<style>
${client.style}
${themeCss()}
${PAGE_CSS}
${PRINT_CSS}${data.path === undefined ? '' : `\n${PATH_CSS}`}
</style>
<noscript><style>.charts{display:none}\
.jump{pointer-events:none;color:inherit;text-decoration:none}</style></noscript>
</head>
<body>
${body(data, charts)}
<script type="application/json" id="chart-data">${jsonForScript(charts)}</script>
<script>${client.script}</script>
</body>
</html>
`;
}

function body(data: ReportData, charts: ChartData): string {
  const time = createTimeFormat(charts.timeS.at(-1) ?? 0);
  const names = data.overlay ?? data.comparison?.names ?? [];
  return `<main>
${summarySection(data)}${optional(pathSection(data.path))}${optional(metricsSection(data.metrics))}
${briefSection(data)}
${timelineSection(charts, names)}
${findingsSection(inOrder(data.findings), time)}
${comparisonSection(data.comparison)}
${limitsSection(data.limits, time)}
${data.path === undefined ? `${oddsSection(data.odds)}\n` : ''}\
${statesSection(data.states, time, names[0])}
</main>
<footer>
<p>This file holds all it shows and asks nothing of a network. Colours of the charts: Okabe and
Ito, Color Universal Design (2002). Charts drawn with uPlot, MIT licence, text in the source.</p>
</footer>`;
}

function optional(section: string): string {
  return section === '' ? '' : `\n${section}`;
}

/** Nothing may be fetched, and no script may run but the one of this page. */
function contentPolicy(script: string): string {
  const hash = createHash('sha256').update(script).digest('base64');
  return [
    "default-src 'none'",
    `script-src 'sha256-${hash}'`,
    "style-src 'unsafe-inline'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}
