import type { TimeFormat } from './format.ts';
import { escapeHtml } from './html.ts';
import type { Finding, Severity } from './report-data.ts';

const WORDS: Record<Severity, string> = { note: 'Note', warning: 'Warning', breach: 'Breach' };

/** The findings as a numbered list; the numbers are those of the marks above the charts. */
export function findingsSection(findings: readonly Finding[], time: TimeFormat): string {
  const body =
    findings.length === 0
      ? '<p class="plain-note">Nothing was found that needs a word.</p>'
      : `<ol class="findings">\n${findings.map((f, i) => item(f, i, time)).join('\n')}\n</ol>`;
  return `<section aria-labelledby="findings-title">
<h2 id="findings-title">Findings</h2>
${body}
</section>`;
}

function item(finding: Finding, index: number, time: TimeFormat): string {
  const { atS, toS, severity, text } = finding;
  const until = toS === undefined || toS <= atS ? '' : ` to ${time(toS)}`;
  return `<li class="${severity}">
<span class="pin ${severity}"><b>${index + 1}</b></span>
<span class="severity">${WORDS[severity]}</span>
<button type="button" class="jump" data-finding="${index}" \
aria-label="Show ${time(atS)} in the charts">\
${time(atS)}${until}</button>
<p>${escapeHtml(text)}</p>
</li>`;
}
