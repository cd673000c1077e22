import type { TimeFormat } from './format.ts';
import { escapeHtml } from './html.ts';
import { outcomeIcon } from './icons.ts';
import type { LimitRow } from './report-data.ts';

/** The table of safety limits with a line that counts the outcomes. */
export function limitsSection(limits: readonly LimitRow[], time: TimeFormat): string {
  if (limits.length === 0) return '';
  return `<section aria-labelledby="limits-title">
<h2 id="limits-title">Safety limits</h2>
<p class="counts">${counts(limits)}</p>
<table class="limits" role="table">
<thead role="rowgroup"><tr role="row"><th role="columnheader" scope="col">Limit</th>\
<th role="columnheader" scope="col">What it demands</th>\
<th role="columnheader" scope="col">Outcome</th>\
<th role="columnheader" scope="col">What was seen</th>\
<th role="columnheader" scope="col" class="time">First at</th></tr></thead>
<tbody role="rowgroup">
${limits.map((limit) => row(limit, time)).join('\n')}
</tbody>
</table>
</section>`;
}

function row(limit: LimitRow, time: TimeFormat): string {
  const { id, title, held, applies, detail, firstAtS } = limit;
  const idle = applies === false ? 'Does not apply' : 'Not tested';
  const word = held === null ? idle : held ? 'Held' : 'Broken';
  const kind = held === null ? 'none' : held ? 'held' : 'broken';
  const at =
    firstAtS === undefined
      ? ''
      : `<button type="button" class="jump" data-at="${firstAtS}" \
aria-label="Show ${time(firstAtS)} in the charts">${time(firstAtS)}</button>`;
  return `<tr role="row" class="is-${kind}">
<th role="rowheader" scope="row">${escapeHtml(id)}</th>
<td role="cell" class="title">${escapeHtml(title)}</td>
<td role="cell" class="outcome"><span>${outcomeIcon(held)}${word}</span></td>
<td role="cell" class="detail">${escapeHtml(detail)}</td>
<td role="cell" class="time">${at}</td>
</tr>`;
}

function counts(limits: readonly LimitRow[]): string {
  const strange = limits.filter(({ applies }) => applies === false).length;
  const of = (held: boolean | null) => limits.filter((limit) => limit.held === held).length;
  const parts = [`${of(true)} held`, `${of(false)} broken`];
  const untested = of(null) - strange;
  if (untested > 0) parts.push(`${untested} not tested in this run`);
  if (strange > 0) parts.push(`${strange} ${strange === 1 ? 'does' : 'do'} not apply`);
  return `${parts.join(', ')}.`;
}
