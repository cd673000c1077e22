import { drawVehicle, show } from './draw-vehicle.ts';
import { escapeHtml } from './html.ts';
import type { PathFrame } from './path-frame.ts';
import { type PathMoments, startS } from './path-moments.ts';
import type { FloorPatch, PathDrive, PathGate, PathView } from './path-view.ts';

/** The picture without its texts, as SVG; colours and widths come from the page's style. */
export function drawPath(view: PathView, frame: PathFrame, moments: PathMoments): string {
  const { width, height } = frame;
  // The first setup lies on top of the others.
  const order = view.drives.map((_, i) => i).reverse();
  return `<svg class="floor" viewBox="0 0 ${width} ${height}" role="img" \
aria-label="${escapeHtml(label(view))}">
<defs><pattern id="hatch" width="9" height="9" patternUnits="userSpaceOnUse" \
patternTransform="rotate(45)"><path class="hatch" d="M0 0V9"/></pattern></defs>
${view.patches.map((patch) => drawPatch(frame, patch)).join('\n')}
<path class="grid" d="${gridPath(frame)}"/>
${view.gates.map((gate) => drawGate(frame, gate)).join('\n')}
${order.map((i) => drawRubber(view, frame, view.drives[i]!)).join('\n')}
${order.map((i) => drawDrive(view, frame, moments, i)).join('\n')}
</svg>`;
}

function label({ drives }: PathView): string {
  const each = drives.map(({ name, verdict }) => (verdict === '' ? name : `${name}: ${verdict}`));
  return `The way of the vehicle, seen from above. ${each.join(' ')}`;
}

function drawDrive(view: PathView, frame: PathFrame, moments: PathMoments, index: number): string {
  const drive = view.drives[index]!;
  const first = moments.at[index]!.at(0);
  const last = moments.at[index]!.at(-1);
  if (first === undefined || last === undefined) return '';
  const cars = moments.at[index]!.map((at) => {
    const car = drawVehicle(frame, view.vehicle, drive, at);
    return moments.isCrowded[index] && at !== last ? `<g class="ghost">${car}</g>` : car;
  });
  const dot = (at: number, name: string, r: number) =>
    `<circle class="${name}" cx="${show(frame.x(drive.x[at]!))}" \
cy="${show(frame.y(drive.y[at]!))}" r="${r}"/>`;
  return `<g class="drive" style="--trace:var(--series-${drive.hue})">
${cars.join('\n')}
<path class="way ${drive.style}" d="${wayPath(frame, drive)}"/>
${dot(first, 'start', 5)}${dot(last, 'end', 5)}
</g>`;
}

/** Points of a line closer together than this are left out, units. */
const FINENESS = 1.5;

function wayPath(frame: PathFrame, drive: PathDrive): string {
  const { x, y, t } = drive;
  const from = startS(drive);
  const points: string[] = [];
  let lastX = Number.NaN;
  let lastY = Number.NaN;
  for (let i = 0; i < x.length; i++) {
    if (t[i]! < from) continue;
    const px = frame.x(x[i]!);
    const py = frame.y(y[i]!);
    if (i < x.length - 1 && Math.hypot(px - lastX, py - lastY) < FINENESS) continue;
    points.push(`${show(px)} ${show(py)}`);
    [lastX, lastY] = [px, py];
  }
  return points.length === 0 ? '' : `M${points.join('L')}`;
}

/** Of several drives each leaves marks of its own colour. */
function drawRubber(view: PathView, frame: PathFrame, drive: PathDrive): string {
  const colour = view.drives.length === 1 ? '' : ` style="stroke:var(--series-${drive.hue})"`;
  return `<path class="rubber"${colour} d="${rubberPath(view, frame, drive)}"/>`;
}

/** What sliding wheels leave on the floor. */
function rubberPath({ vehicle }: PathView, frame: PathFrame, drive: PathDrive): string {
  const { cgToFront, cgToRear, trackFront, trackRear } = vehicle;
  const from = startS(drive);
  const strokes = drive.slide.map((slide, wheel) => {
    const ahead = wheel >= 2 ? cgToFront : -cgToRear;
    const side = ((wheel % 2 === 0 ? 1 : -1) * (wheel >= 2 ? trackFront : trackRear)) / 2;
    let path = '';
    let isDrawing = false;
    let last: [number, number] = [0, 0];
    for (let i = 0; i < drive.t.length; i++) {
      if (drive.t[i]! < from || !(slide[i]! > 1)) {
        isDrawing = false;
        continue;
      }
      const cos = Math.cos(drive.yaw[i]!);
      const sin = Math.sin(drive.yaw[i]!);
      const px = frame.x(drive.x[i]! + cos * ahead - sin * side);
      const py = frame.y(drive.y[i]! + sin * ahead + cos * side);
      if (isDrawing && Math.hypot(px - last[0], py - last[1]) < FINENESS) continue;
      path += `${isDrawing ? 'L' : 'M'}${show(px)} ${show(py)}`;
      isDrawing = true;
      last = [px, py];
    }
    return path;
  });
  return strokes.join('');
}

function gridPath(frame: PathFrame): string {
  const { grid, left, right, bottom, top, width, height } = frame;
  const lines: string[] = [];
  for (let i = Math.ceil(left / grid); i * grid <= right; i++)
    lines.push(`M${show(frame.x(i * grid))} 0V${height}`);
  for (let i = Math.ceil(bottom / grid); i * grid <= top; i++)
    lines.push(`M0 ${show(frame.y(i * grid))}H${width}`);
  return lines.join('');
}

function drawPatch(frame: PathFrame, patch: FloorPatch): string {
  const [x, right] = [frame.x(patch.fromX), frame.x(patch.toX)].map((v) => hold(v, frame.width));
  const [y, bottom] = [frame.y(patch.toY), frame.y(patch.fromY)].map((v) => hold(v, frame.height));
  return `<rect class="patch" x="${show(x!)}" y="${show(y!)}" width="${show(right! - x!)}" \
height="${show(bottom! - y!)}" fill="url(#hatch)"/>`;
}

function hold(value: number, most: number): number {
  return Math.min(Math.max(value, 0), most);
}

function drawGate(frame: PathFrame, { fromX, toX, right, left }: PathGate): string {
  const [from, to] = [show(frame.x(fromX)), show(frame.x(toX))];
  const lines = [right, left].filter(Number.isFinite).map((y) => {
    const at = show(frame.y(y));
    return `<path class="gate" d="M${from} ${at}H${to}"/><circle class="cone" cx="${from}" \
cy="${at}" r="3"/><circle class="cone" cx="${to}" cy="${at}" r="3"/>`;
  });
  return lines.join('');
}
