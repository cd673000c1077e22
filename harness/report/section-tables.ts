import type { TimeFormat } from './format.ts';
import { escapeHtml } from './html.ts';
import { swatch } from './icons.ts';
import type { Comparison, Loss, StateSpan } from './report-data.ts';

/** Figures of two setups side by side; nothing without a comparison. */
export function comparisonSection(comparison: Comparison | undefined): string {
  if (comparison === undefined) return '';
  const [a, b] = comparison.names;
  const rows = comparison.rows.map(
    (row) =>
      `<tr><th scope="row">${escapeHtml(row.label)}</th>` +
      `<td>${escapeHtml(row.a)}</td><td>${escapeHtml(row.b)}</td></tr>`,
  );
  return `<section aria-labelledby="comparison-title">
<h2 id="comparison-title">Two setups, the same inputs</h2>
<table class="comparison">
<thead><tr><td></td><th scope="col">${swatch('solid', null)}${escapeHtml(a)}</th>\
<th scope="col">${swatch('dashed', null)}${escapeHtml(b)}</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
</section>`;
}

/** How many lost rows are shown at once; the rest is folded away. */
const SHOWN_LOSSES = 12;

/** Up to this many folded rows are unfolded on paper. */
const PRINTED_LOSSES = 200;

/** Rows that could not be read. */
export function lossesSection(losses: readonly Loss[]): string {
  const shown = losses.slice(0, SHOWN_LOSSES);
  const rest = losses.slice(SHOWN_LOSSES);
  const body =
    losses.length === 0
      ? '<p class="plain-note">Every row of the file could be read.</p>'
      : lossTable(shown) +
        folded(
          `${rest.length} more`,
          rest.length,
          () => lossTable(rest),
          rest.length <= PRINTED_LOSSES,
        );
  return `<section aria-labelledby="losses-title">
<h2 id="losses-title">Rows lost</h2>
${body}
</section>`;
}

/**
 * Every change of state in words, folded away: the strip above the charts shows them.
 *
 * @param whose the setup that had them, where there are several
 */
export function statesSection(
  states: readonly StateSpan[],
  time: TimeFormat,
  whose: string | undefined,
): string {
  if (states.length === 0) return '';
  const rows = states.map(
    ({ fromS, toS, label, kind }) =>
      `<tr><td class="time">${time(fromS)}</td><td class="time">${time(toS)}</td>` +
      `<td><i class="state ${kind}"></i>${escapeHtml(label)}</td></tr>`,
  );
  const table = `<table class="plain">
<thead><tr><th scope="col" class="time">From</th><th scope="col" class="time">To</th>\
<th scope="col">State</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>`;
  return `<section class="states" aria-labelledby="states-title">
<h2 id="states-title">States${whose === undefined ? '' : ` of ${escapeHtml(whose)}`}</h2>
${folded(`All ${states.length} in order`, states.length, () => table)}
</section>`;
}

function lossTable(losses: readonly Loss[]): string {
  const rows = losses.map(
    ({ line, reason }) =>
      `<tr><td class="line">${line === 0 ? '' : line}</td><td>${escapeHtml(reason)}</td></tr>`,
  );
  return `<table class="plain">
<thead><tr><th scope="col" class="line">Line</th><th scope="col">Why</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>`;
}

function folded(label: string, count: number, content: () => string, isPrinted = false): string {
  if (count === 0) return '';
  return `<details${isPrinted ? ' data-printed' : ''}><summary>${label}</summary>
${content()}
</details>`;
}
