import { escapeHtml } from './html.ts';
import { swatch } from './icons.ts';
import type { Handling } from './report-data.ts';

/** How the vehicle handled, at the very top; nothing where no drive was simulated. */
export function handlingSection(handling: readonly Handling[] | undefined): string {
  if (handling === undefined) return '';
  const isAlone = handling.length === 1;
  const items = handling.map(({ name, style, hue, word, tone, text }) => {
    const who = isAlone ? '' : `${swatch(style, hue)}<b class="who">${escapeHtml(name)}</b>`;
    const chip = word === '' ? '' : `<b class="word">${escapeHtml(word)}</b>`;
    return `<li class="is-${tone}">${who}${chip}<span>${escapeHtml(text)}</span></li>`;
  });
  return `<section class="handling" aria-label="How it handled">
<ul>
${items.join('\n')}
</ul>
</section>`;
}
