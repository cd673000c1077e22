import type { Gate, ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import type { Drive } from './drive.ts';

/**
 * Least distance between the vehicle's outline and the lines of the course, m; negative = over a
 * line. The outline is a rectangle about the middle between the axles.
 *
 * @returns a sentence if the drive does not show it
 */
export function findMargin({ trace, manoeuvre, car, whole }: Drive): number | string {
  const gates = manoeuvre.course?.(car) ?? [];
  if (gates.length === 0) return 'The manoeuvre has no course.';
  const margins = gates.map(() => Infinity);
  const start = whole.from;
  for (let i = start; i < whole.to; i++) {
    const [x0, y0, yaw0] = [trace.x[start]!, trace.y[start]!, trace.yaw[start]!];
    const [dx, dy] = [trace.x[i]! - x0, trace.y[i]! - y0];
    const x = Math.cos(yaw0) * dx + Math.sin(yaw0) * dy;
    const y = Math.cos(yaw0) * dy - Math.sin(yaw0) * dx;
    const corners = outline(car, x, y, trace.yaw[i]! - yaw0);
    for (const [g, gate] of gates.entries())
      margins[g] = Math.min(margins[g]!, marginIn(gate, corners));
  }
  const missed = margins.indexOf(Infinity);
  if (missed < 0) return margins.reduce((a, b) => Math.min(a, b));
  const gate = `gate ${missed + 1} of ${gates.length}`;
  return `Time was up before ${gate}: too slow, or off its course.`;
}

/** Corners of the outline, one after the other. */
function outline(car: ManoeuvreCar, x: number, y: number, yaw: number): [number, number][] {
  const middle = car.cgToFront - car.wheelbase / 2;
  const [cos, sin] = [Math.cos(yaw), Math.sin(yaw)];
  const at = (along: number, across: number): [number, number] => [
    x + cos * (middle + along) - sin * across,
    y + sin * (middle + along) + cos * across,
  ];
  const [half, side] = [car.length / 2, car.width / 2];
  return [at(half, side), at(half, -side), at(-half, -side), at(-half, side)];
}

/** Least distance of the part of the outline that lies in the gate; Infinity if none does. */
function marginIn({ fromX, toX, right, left }: Gate, corners: [number, number][]): number {
  let margin = Infinity;
  for (const [k, [x1, y1]] of corners.entries()) {
    const [x2, y2] = corners[(k + 1) % corners.length]!;
    // Ends of what lies in the strip; over x the edge is straight, so they are the extremes.
    const low = Math.max(Math.min(x1, x2), fromX);
    const high = Math.min(Math.max(x1, x2), toX);
    if (low > high) continue;
    for (const x of [low, high]) {
      const y = x1 === x2 ? y1 : y1 + ((x - x1) / (x2 - x1)) * (y2 - y1);
      margin = Math.min(margin, left - y, y - right);
      if (x1 === x2) margin = Math.min(margin, left - y2, y2 - right);
    }
  }
  return margin;
}
