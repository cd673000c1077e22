import type { PathFrame } from './path-frame.ts';
import type { PathDrive, PathView } from './path-view.ts';

/** The moments at which vehicles are drawn. */
export interface PathMoments {
  /** Time between them, s. */
  stepS: number;
  /** For each drive, its samples nearest to those moments, the last one added. */
  at: number[][];
  /** For each drive, whether it hardly left its place, so that its vehicles lie on each other. */
  isCrowded: boolean[];
}

const STEPS = [0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10, 20, 30, 60];
/** Vehicles in a picture, at most, all drives together. */
const MOST = 27;
/** Least mean distance between two of them, in lengths as drawn. */
const APART = 1.25;

/** A way shorter than this, in lengths as drawn, is no way. */
const CROWDED = 2;

/** Moments of equal distance in time, so that their distance on the floor tells the speed. */
export function pathMoments(view: PathView, frame: PathFrame): PathMoments {
  const length = view.vehicle.length * frame.enlarged;
  const perDrive = Math.min(20, Math.floor(MOST / view.drives.length));
  const isApart = (stepS: number) =>
    view.drives.every((drive) => {
      const seconds = (drive.t[drive.t.length - 1] ?? 0) - startS(drive);
      const count = seconds / stepS;
      const room = Math.max(wayOf(drive) / (APART * length), 5);
      return count <= Math.min(perDrive, room);
    });
  const stepS = STEPS.find(isApart) ?? STEPS.at(-1)!;
  const at = view.drives.map((drive) => apart(drive, momentsOf(drive, stepS), length));
  return { stepS, at, isCrowded: view.drives.map((drive) => wayOf(drive) < CROWDED * length) };
}

/** Leaves out those that would lie on the one before, but for the first and the last. */
function apart({ x, y, yaw }: PathDrive, moments: readonly number[], length: number): number[] {
  let before = moments[0]!;
  return moments.filter((at, i) => {
    if (i === 0 || i === moments.length - 1) return true;
    const way = Math.hypot(x[at]! - x[before]!, y[at]! - y[before]!) / length;
    const turn = Math.abs(yaw[at]! - yaw[before]!) / HALF_A_RADIAN;
    if (way + turn < 0.6) return false;
    before = at;
    return true;
  });
}

const HALF_A_RADIAN = 0.5;

/** A drive is drawn from here on: what lies before is standing still to be armed. */
export function startS({ t }: PathDrive): number {
  return Math.max(0, t[0] ?? 0);
}

function wayOf({ x, y }: PathDrive): number {
  let way = 0;
  for (let i = 1; i < x.length; i++) way += Math.hypot(x[i]! - x[i - 1]!, y[i]! - y[i - 1]!);
  return way;
}

function momentsOf(drive: PathDrive, stepS: number): number[] {
  const { t } = drive;
  const last = t.length - 1;
  if (last < 0) return [];
  const moments: number[] = [];
  let wanted = startS(drive);
  for (let i = 0; i <= last; i++) {
    if (t[i]! < wanted - 1e-9) continue;
    moments.push(i);
    while (wanted <= t[i]! + 1e-9) wanted += stepS;
  }
  // The end counts, but not on top of the moment before it.
  const end = moments.at(-1)!;
  if (t[last]! - t[end]! > 0.5 * stepS) moments.push(last);
  else if (moments.length > 1) moments[moments.length - 1] = last;
  return moments;
}
