import { escapeHtml } from './html.ts';
import { swatch } from './icons.ts';
import type { MetricRow, MetricsTable } from './report-data.ts';

/** Figures of a manoeuvre, one column a setup; those that say less are folded away. */
export function metricsSection(table: MetricsTable | undefined): string {
  if (table === undefined) return '';
  const shown = table.rows.filter(({ isHeadline }) => isHeadline);
  const rest = table.rows.filter(({ isHeadline }) => !isHeadline);
  const more =
    rest.length === 0
      ? ''
      : `<details data-printed><summary>${rest.length} more figures</summary>
${grid(table, rest)}
</details>`;
  return `<section aria-labelledby="metrics-title">
<h2 id="metrics-title">Figures of the drive</h2>
${grid(table, shown)}
${more}
</section>`;
}

function grid({ names, styles }: MetricsTable, rows: readonly MetricRow[]): string {
  if (rows.length === 0) return '';
  const heads = names.map((name, i) => {
    const mark = names.length === 1 ? '' : swatch(styles[i]!, i);
    return `<th role="columnheader" scope="col" class="figure">${mark}${escapeHtml(name)}</th>`;
  });
  return `<table class="metrics" role="table" style="--setups:${names.length}">
<thead role="rowgroup"><tr role="row"><td></td>${heads.join('')}\
<th role="columnheader" scope="col" class="meaning">What it tells</th></tr></thead>
<tbody role="rowgroup">
${rows.map(row).join('\n')}
</tbody>
</table>`;
}

function row({ label, values, meaning, isHeadline }: MetricRow): string {
  const cells = values.map(
    (value) => `<td role="cell" class="figure">${value === null ? '–' : escapeHtml(value)}</td>`,
  );
  return `<tr role="row"${isHeadline ? ' class="is-headline"' : ''}>\
<th role="rowheader" scope="row">${escapeHtml(label)}</th>${cells.join('')}\
<td role="cell" class="meaning">${escapeHtml(meaning)}</td></tr>`;
}
