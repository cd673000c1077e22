import { DARK, LIGHT, type Theme } from './palette.ts';

/** The palette as custom properties: light, dark by the reader's wish, light again on paper. */
export function themeCss(): string {
  return [
    `:root{color-scheme:light dark;${properties(LIGHT)}}`,
    `@media screen and (prefers-color-scheme:dark){:root{${properties(DARK)}}}`,
    `@media print{:root{color-scheme:light;${properties({ ...LIGHT, page: '#ffffff' })}}}`,
  ].join('\n');
}

function properties(theme: Theme): string {
  const plain = (['page', 'card', 'ink', 'muted', 'line', 'accent', 'held', 'broken'] as const).map(
    (name) => `--${name}:${theme[name]}`,
  );
  const series = theme.series.map((colour, i) => `--series-${i}:${colour}`);
  const states = Object.entries(theme.state).map(([kind, colour]) => `--state-${kind}:${colour}`);
  const marks = Object.entries(theme.severity).map(([name, colour]) => `--mark-${name}:${colour}`);
  return [...plain, ...series, ...states, ...marks].join(';');
}
