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
      const spots = spotsBeside(view, frame, d, sample, moments.isCrowded[d]!);
      return [{ spots, text, rank: isEnd ? 0 : i % 2 === 0 ? 1 : 2 }];
    });
  });
  const start = view.drives[0] && moments.at[0]?.[0];
  if (start !== undefined)
    wanted.push({
      spots: spotsBeside(view, frame, 0, start, moments.isCrowded[0]!),
      text: 'start',
      rank: 0,
    });
  wanted.sort((a, b) => a.rank - b.rank);
  return place(wanted, frame)
    .map(({ text, spot: { x, y, nx, ny }, isNarrow }) => {
      const left = ((100 * x) / frame.width).toFixed(2);
      const top = ((100 * y) / frame.height).toFixed(2);
      const style = `left:${left}%;top:${top}%;transform:${shift(nx, ny)}`;
      const width = isNarrow ? '' : ' wide';
      return `<span class="mark${width}" style="${style}">${escapeHtml(text)}</span>`;
    })
    .join('\n');
}

/** Moves a text from its anchor by half its own size and a gap, whatever the size is. */
function shift(nx: number, ny: number): string {
  const by = (share: number) =>
    `calc(${(50 * (share - 1)).toFixed(0)}% + ${(GAP * share).toFixed(1)}px)`;
  return `translate(${by(nx)},${by(ny)})`;
}

/** Between a vehicle and its text, pixels. */
const GAP = 4;

interface Label {
  /** Where the text may stand, the best first. */
  spots: Spot[];
  text: string;
  /** Lower = placed first. */
  rank: number;
}

/** A point of the picture, units, and which way from there a text lies; y points down. */
interface Spot {
  x: number;
  y: number;
  /** -1 to 1: the text's middle lies by this share of its half size, and a gap, away. */
  nx: number;
  ny: number;
}

/** Units a pixel in a picture that is about 1000 or 340 pixels wide. */
const WIDE = 1;
const NARROW = 2.9;
/** Size of a letter, pixels. */
const LETTER = { width: 6.4, height: 14 };

/**
 * Beside the vehicle: on the outer side of the bend, on the inner one, around it, or at the edge;
 * ahead of it where vehicles lie on each other.
 */
function spotsBeside(
  { vehicle, drives }: PathView,
  frame: PathFrame,
  d: number,
  at: number,
  isCrowded: boolean,
): Spot[] {
  const { x, y, yaw } = drives[d]!;
  if (isCrowded) {
    const ahead = 0.62 * vehicle.length * frame.enlarged * frame.scale;
    const [nx, ny] = [Math.cos(yaw[at]!), -Math.sin(yaw[at]!)];
    return [{ x: frame.x(x[at]!) + nx * ahead, y: frame.y(y[at]!) + ny * ahead, nx, ny }];
  }
  const before = Math.max(at - 20, 0);
  const after = Math.min(at + 20, x.length - 1);
  const outer = yaw[after]! - yaw[before]! > 0 ? -1 : 1;
  const away = 0.55 * vehicle.width * frame.enlarged * frame.scale;
  const plain = [outer, -outer].map((side): Spot => {
    const nx = -Math.sin(yaw[at]!) * side;
    const ny = -Math.cos(yaw[at]!) * side;
    return { x: frame.x(x[at]!) + nx * away, y: frame.y(y[at]!) + ny * away, nx, ny };
  });
  const around = spotsAround({ x: frame.x(x[at]!), y: frame.y(y[at]!) }, away);
  const edges = plain.map((spot): Spot => {
    const isRight = spot.x > frame.width / 2;
    return { ...spot, x: isRight ? frame.width : 0, nx: isRight ? -1 : 1 };
  });
  return [...plain, ...around, ...edges];
}

/** In eight directions, near and less near. */
function spotsAround({ x, y }: { x: number; y: number }, away: number): Spot[] {
  return [1.5, 3].flatMap((far) =>
    [0, 1, 2, 3, 4, 5, 6, 7].map((eighth): Spot => {
      const [nx, ny] = [Math.cos((eighth * Math.PI) / 4), Math.sin((eighth * Math.PI) / 4)];
      return { x: x + nx * away * far, y: y + ny * away * far, nx, ny };
    }),
  );
}

interface Box {
  x: number;
  y: number;
  halfWidth: number;
  halfHeight: number;
}

/** A text with the spot it got, and whether it fits on a narrow screen, too. */
interface Placed {
  text: string;
  spot: Spot;
  isNarrow: boolean;
}

/**
 * Those that neither lie on one placed before nor leave the picture. A spot that does for both
 * sizes of screen is better than an earlier one that does not.
 */
function place(labels: readonly Label[], frame: PathFrame): Placed[] {
  const wide: Box[] = [];
  const narrow: Box[] = [];
  return labels.flatMap(({ text, spots }) => {
    const fitting = spots.filter((spot) => fits(boxOf(text, spot, WIDE), wide, frame));
    const both = fitting.find((spot) => fits(boxOf(text, spot, NARROW), narrow, frame));
    const spot = both ?? fitting[0];
    if (spot === undefined) return [];
    wide.push(boxOf(text, spot, WIDE));
    if (both) narrow.push(boxOf(text, spot, NARROW));
    return [{ text, spot, isNarrow: both !== undefined }];
  });
}

function fits(here: Box, taken: readonly Box[], frame: PathFrame): boolean {
  const isInside =
    here.x >= here.halfWidth &&
    here.x <= frame.width - here.halfWidth &&
    here.y >= here.halfHeight &&
    here.y <= frame.height - here.halfHeight;
  return (
    isInside &&
    taken.every(
      (other) =>
        Math.abs(other.x - here.x) > other.halfWidth + here.halfWidth ||
        Math.abs(other.y - here.y) > other.halfHeight + here.halfHeight,
    )
  );
}

function boxOf(text: string, { x, y, nx, ny }: Spot, pixel: number): Box {
  const halfWidth = (text.length * LETTER.width * pixel) / 2;
  const halfHeight = (LETTER.height * pixel) / 2;
  // At an edge the gap counts for nothing, so that the text ends there.
  const gap = GAP * pixel;
  return {
    x: x + nx * (halfWidth + (Math.abs(nx) === 1 ? 0 : gap)),
    y: y + ny * (halfHeight + gap),
    halfWidth,
    halfHeight,
  };
}
