import type { TimeFormat } from './format.ts';
import { escapeHtml } from './html.ts';
import { swatch } from './icons.ts';
import type { Comparison, Odd, StateSpan } from './report-data.ts';

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

/** How many of them are shown at once; the rest is folded away. */
const SHOWN_ODDS = 12;

/** Up to this many folded rows are unfolded on paper. */
const PRINTED_ODDS = 200;

/** What is wrong or odd in the file. */
export function oddsSection(odds: readonly Odd[]): string {
  const shown = odds.slice(0, SHOWN_ODDS);
  const rest = odds.slice(SHOWN_ODDS);
  const body =
    odds.length === 0
      ? '<p class="plain-note">Every row of the file could be read.</p>'
      : oddsTable(shown) +
        folded(
          `${rest.length} more`,
          rest.length,
          () => oddsTable(rest),
          rest.length <= PRINTED_ODDS,
        );
  return `<section aria-labelledby="odds-title">
<h2 id="odds-title">Found in the file</h2>
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

function oddsTable(odds: readonly Odd[]): string {
  const rows = odds.map(
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
