import { escapeHtml } from './html.ts';
import { outcomeIcon } from './icons.ts';
import type { ReportData } from './report-data.ts';
import { handlingSection } from './section-handling.ts';

/** Title and outcome. */
export function summarySection(data: ReportData): string {
  return `<header class="masthead">
<p class="maker">axlewright <span>run report</span></p>
<h1>${escapeHtml(data.title)}</h1>
<p class="subtitle">${escapeHtml(data.subtitle)}</p>
</header>
${handlingSection(data.handling)}\
<section class="verdict ${data.verdict.held ? 'is-held' : 'is-broken'}" aria-label="Outcome">
${outcomeIcon(data.verdict.held)}
<p>${escapeHtml(data.verdict.text)}</p>
</section>`;
}

/** Facts and cautions. */
export function briefSection(data: ReportData): string {
  return `<div class="brief${isLong(data.cautions) ? ' is-stacked' : ''}">
${facts(data)}
${cautions(data)}
</div>`;
}

/** A long box beside the few facts would leave a hole under them; it goes below instead. */
function isLong(cautions: readonly string[]): boolean {
  return cautions.join('').length > 300;
}

function facts(data: ReportData): string {
  if (data.facts.length === 0) return '';
  const items = data.facts.map(
    ({ label, value, isLong: own }) =>
      `<div${own ? ' class="own-line"' : ''}><dt>${escapeHtml(label)}</dt>` +
      `<dd>${escapeHtml(value)}</dd></div>`,
  );
  return `<section class="facts" aria-labelledby="facts-title">
<h2 id="facts-title">About this run</h2>
<dl>
${items.join('\n')}
</dl>
</section>`;
}

function cautions(data: ReportData): string {
  if (data.cautions.length === 0) return '';
  const items = data.cautions.map((text) => `<li>${escapeHtml(text)}</li>`);
  return `<aside class="cautions" aria-labelledby="cautions-title">
<h2 id="cautions-title">Before you drive</h2>
<ul>
${items.join('\n')}
</ul>
</aside>`;
}
