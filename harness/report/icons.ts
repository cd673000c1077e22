/** A tick, a cross or a dash in a ring; the word beside it says the same. */
export function outcomeIcon(held: boolean | null): string {
  const stroke = held === null ? 'M5.5 10h9' : held ? 'M5 10.4l3.4 3.4L15 7' : 'M6 6l8 8M14 6l-8 8';
  const kind = held === null ? 'none' : held ? 'held' : 'broken';
  return (
    `<svg class="icon icon-${kind}" viewBox="0 0 20 20" aria-hidden="true">` +
    `<circle cx="10" cy="10" r="9"/><path d="${stroke}"/></svg>`
  );
}

/** A short stroke as a trace is drawn. */
export function swatch(style: 'solid' | 'dashed' | 'dotted', hue: number | null): string {
  const colour = hue === null ? '' : ` style="--trace:var(--series-${hue})"`;
  return (
    `<svg class="swatch ${style}" viewBox="0 0 26 8" aria-hidden="true"${colour}>` +
    '<path d="M1 4h24"/></svg>'
  );
}
