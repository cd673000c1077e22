import type { PathDrive, PathView } from './path-view.ts';

/** How metres become places in the picture. */
export interface PathFrame {
  /** Size of the picture in its own units; 1000 wide. */
  width: number;
  height: number;
  /** Units a metre. */
  scale: number;
  /** Place of a point of the floor, units. */
  x(metres: number): number;
  y(metres: number): number;
  /** Edges of the picture, m. */
  left: number;
  right: number;
  bottom: number;
  top: number;
  /** Distance of the lines of the grid, m. */
  grid: number;
  /** How many times its size the vehicle is drawn. */
  enlarged: number;
}

/** Units across the picture. */
const WIDTH = 1000;
/** Least and greatest width over height. */
const LOWEST = 4.2;
const TALLEST = 0.8;
/** A vehicle shorter than this could not be made out, units; it is drawn larger. */
const LEAST_LENGTH = 40;
const SIZES = [1, 1.5, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50];
const MOST_SIZE = 100;
/** Least width of the picture, in lengths of the vehicle: one that stands still is not a giant. */
const LEAST_WAY = 6;
/** Lines of the grid across the longer side, at most. */
const MOST_LINES = 13;

/** The frame that holds every drive with its vehicle, and the gates, with equal axes. */
export function pathFrame(view: PathView): PathFrame {
  const box = emptyBox();
  for (const drive of view.drives) addDrive(box, drive);
  for (const { fromX, toX, right, left } of view.gates) {
    for (const y of [right, left]) if (Number.isFinite(y)) addBox(box, fromX, toX, y, y);
  }
  if (box.left > box.right) addBox(box, 0, 0, 0, 0);
  const { length } = view.vehicle;
  const plain = Math.max(box.right - box.left, (box.top - box.bottom) * TALLEST, length);
  const wanted = (LEAST_LENGTH / WIDTH) * (plain + 2 * length);
  // Between the lines of a course it must be seen at its own size.
  const isCourse = view.gates.length > 0;
  const enlarged = isCourse ? 1 : (SIZES.find((size) => size * length >= wanted) ?? MOST_SIZE);
  const margin = 0.75 * enlarged * length;
  widen(box, box.right - box.left + 2 * margin, box.top - box.bottom + 2 * margin);
  stretch(box, LEAST_WAY * length);
  const scale = WIDTH / (box.right - box.left);
  return {
    ...box,
    width: WIDTH,
    height: Math.round((box.top - box.bottom) * scale),
    scale,
    x: (metres) => (metres - box.left) * scale,
    y: (metres) => (box.top - metres) * scale,
    grid: gridStep(Math.max(box.right - box.left, box.top - box.bottom)),
    enlarged,
  };
}

interface Box {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

function emptyBox(): Box {
  return { left: Infinity, right: -Infinity, bottom: Infinity, top: -Infinity };
}

function addBox(box: Box, fromX: number, toX: number, fromY: number, toY: number): void {
  box.left = Math.min(box.left, fromX);
  box.right = Math.max(box.right, toX);
  box.bottom = Math.min(box.bottom, fromY);
  box.top = Math.max(box.top, toY);
}

function addDrive(box: Box, { x, y }: PathDrive): void {
  for (let i = 0; i < x.length; i++) {
    if (Number.isFinite(x[i]!) && Number.isFinite(y[i]!)) addBox(box, x[i]!, x[i]!, y[i]!, y[i]!);
  }
}

/** Widens the short side about its middle until the picture is neither a ribbon nor a tower. */
function stretch(box: Box, least: number): void {
  widen(box, least, 0);
  widen(box, (box.top - box.bottom) * TALLEST, (box.right - box.left) / LOWEST);
}

/** Makes a box at least this wide and high, about its middle. */
function widen(box: Box, width: number, height: number): void {
  const x = Math.max(0, width - (box.right - box.left)) / 2;
  const y = Math.max(0, height - (box.top - box.bottom)) / 2;
  addBox(box, box.left - x, box.right + x, box.bottom - y, box.top + y);
}

/** 1, 2 or 5 times a power of ten, m. */
function gridStep(length: number): number {
  const least = length / MOST_LINES;
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = [1, 2, 5, 10].find((each) => each * power >= least * (1 - 1e-9))!;
  return factor * power;
}
