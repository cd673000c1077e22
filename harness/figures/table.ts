import { type Figure, missesGoal } from './figure.ts';

/** The figures as a Markdown table, with notes below it. */
export function figureTable(figures: readonly Figure[]): string {
  const notes = [...new Set(figures.flatMap(({ note }) => note ?? []))];
  const head = ['what', 'where', 'figure', 'goal', ''];
  const rows = figures.map((figure) => [
    figure.what,
    figure.where,
    figure.value === null ? 'not measured' : `${format(figure.value)} ${figure.unit}`,
    goalOf(figure),
    figure.note === undefined ? '' : `(${notes.indexOf(figure.note) + 1})`,
  ]);
  const widths = head.map((title, i) =>
    Math.max(title.length, ...rows.map((row) => row[i]!.length)),
  );
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, i) => cell.padEnd(widths[i]!)).join(' | ')} |`;
  return [
    line(head),
    line(widths.map((width) => '-'.repeat(width))),
    ...rows.map(line),
    '',
    ...notes.map((note, i) => `(${i + 1}) ${note}`),
  ].join('\n');
}

function goalOf(figure: Figure): string {
  const { most, least } = figure;
  if (most === undefined && least === undefined) return '';
  const goal = most !== undefined ? `≤ ${format(most)}` : `≥ ${format(least!)}`;
  return missesGoal(figure) ? `${goal}, MISSED` : goal;
}

function format(value: number): string {
  return value.toLocaleString('en-GB', { maximumFractionDigits: 3 });
}
