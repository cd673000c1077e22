import { escapeHtml } from './html.ts';
import type { PathFrame } from './path-frame.ts';
import type { PathMoments } from './path-moments.ts';
import type { PathView } from './path-view.ts';

/**
 * Texts over the picture, as HTML in shares of its size, so that they keep their size on a small
 * screen; those that would then lie on others show on wide screens only.
 */
export function pathLabels(view: PathView, frame: PathFrame, moments: PathMoments): string {
  const isAlone = view.drives.length === 1;
  const wanted = view.drives.flatMap((drive, d) => {
    const at = moments.at[d]!;
    return at.flatMap((sample, i): Label[] => {
      const isEnd = i === at.length - 1;
      if (!isEnd && (i === 0 || !isAlone)) return [];
      const time = `${Number(drive.t[sample]!.toFixed(2))} s`;
      const text = isEnd && !isAlone ? `${drive.name}, ${time}` : time;
      return [{ ...beside(view, frame, d, sample), text, rank: isEnd ? 0 : i % 2 === 0 ? 1 : 2 }];
    });
  });
  const start = view.drives[0] && moments.at[0]?.[0];
  if (start !== undefined)
    wanted.push({ ...beside(view, frame, 0, start), text: 'start', rank: 0 });
  wanted.sort((a, b) => a.rank - b.rank);
  const wide = place(wanted, frame, WIDE);
  const narrow = new Set(place(wanted, frame, NARROW));
  return wide
    .map(({ x, y, text }, i) => {
      const left = ((100 * x) / frame.width).toFixed(2);
      const top = ((100 * y) / frame.height).toFixed(2);
      const name = narrow.has(wide[i]!) ? 'mark' : 'mark wide';
      return `<span class="${name}" style="left:${left}%;top:${top}%">${escapeHtml(text)}</span>`;
    })
    .join('\n');
}

interface Label {
  /** Middle of the text, units. */
  x: number;
  y: number;
  text: string;
  /** Lower = placed first. */
  rank: number;
}

/** Size of a letter in units of a picture that is about 1000 or 340 pixels wide. */
const WIDE = { width: 7, height: 15 };
const NARROW = { width: 20, height: 42 };

/** Beside the vehicle, on the outer side of the bend. */
function beside({ vehicle, drives }: PathView, frame: PathFrame, d: number, at: number) {
  const { x, y, yaw } = drives[d]!;
  const before = Math.max(at - 20, 0);
  const after = Math.min(at + 20, x.length - 1);
  const bend = yaw[after]! - yaw[before]!;
  const away = (vehicle.width / 2) * frame.enlarged * frame.scale + 13;
  const side = bend > 0 ? -1 : 1;
  const nx = -Math.sin(yaw[at]!) * side;
  const ny = Math.cos(yaw[at]!) * side;
  return { x: frame.x(x[at]!) + nx * (away + 6), y: frame.y(y[at]!) - ny * away };
}

/** Those that neither lie on one placed before nor leave the picture. */
function place(labels: readonly Label[], frame: PathFrame, letter: typeof WIDE): Label[] {
  const placed: Label[] = [];
  const half = (label: Label) => (label.text.length * letter.width) / 2;
  for (const label of labels) {
    const isInside =
      label.x - half(label) > 0 &&
      label.x + half(label) < frame.width &&
      label.y > letter.height / 2 &&
      label.y < frame.height - letter.height / 2;
    const isFree = placed.every(
      (other) =>
        Math.abs(other.x - label.x) > half(other) + half(label) + letter.width ||
        Math.abs(other.y - label.y) > letter.height,
    );
    if (isInside && isFree) placed.push(label);
  }
  return placed;
}
