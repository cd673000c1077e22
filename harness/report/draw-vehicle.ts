import type { PathFrame } from './path-frame.ts';
import type { PathDrive, VehicleOutline } from './path-view.ts';

/** A vehicle at one moment of its drive, nose ahead, with its wheels, as SVG. */
export function drawVehicle(
  frame: PathFrame,
  vehicle: VehicleOutline,
  drive: PathDrive,
  at: number,
): string {
  const place = `${show(frame.x(drive.x[at]!))} ${show(frame.y(drive.y[at]!))}`;
  // The picture's y points down, so a turn to the left is a negative angle.
  const angle = show((-drive.yaw[at]! * 180) / Math.PI);
  const k = frame.scale * frame.enlarged;
  const slides = drive.slide.map((values) => values[at]!);
  const wheels = vehicle.isTracked
    ? tracks(vehicle, k, slides)
    : wheelRects(vehicle, k, slides, drive.steer[at]!);
  return (
    `<g class="car" transform="translate(${place}) rotate(${angle})">` +
    `${body(vehicle, k)}${wheels}</g>`
  );
}

/** How a wheel is filled: it grips, is near its limit, or slides. */
export function gripClass(slide: number): 'grips' | 'near' | 'slides' {
  return slide > 1 ? 'slides' : slide > NEAR ? 'near' : 'grips';
}

/** From this share of the slip of best grip on, a tyre is near its limit. */
const NEAR = 0.7;
/** Width of a tyre over its radius. */
const TYRE_WIDTH = 0.9;
/** Width of the body between the wheels over the outer width. */
const BODY_WIDTH = 0.74;

function body({ length, width, cgToFront, cgToRear }: VehicleOutline, k: number): string {
  // The axles lie in the middle of the outline.
  const middle = ((cgToFront - cgToRear) / 2) * k;
  const front = middle + (length * k) / 2;
  const rear = middle - (length * k) / 2;
  const half = (BODY_WIDTH * width * k) / 2;
  const nose = 0.18 * length * k;
  const outline =
    `M${show(rear)} ${show(-half)}` +
    `L${show(front - nose)} ${show(-half)}L${show(front)} ${show(-0.55 * half)}` +
    `V${show(0.55 * half)}L${show(front - nose)} ${show(half)}H${show(rear)}Z`;
  const screen = middle + 0.12 * length * k;
  const glass =
    `M${show(screen)} ${show(-0.72 * half)}L${show(screen + 0.09 * length * k)} ` +
    `${show(-0.5 * half)}V${show(0.5 * half)}L${show(screen)} ${show(0.72 * half)}`;
  return `<path class="body" d="${outline}"/><path class="glass" d="${glass}"/>`;
}

function wheelRects(
  vehicle: VehicleOutline,
  k: number,
  slides: readonly number[],
  steer: number,
): string {
  const { cgToFront, cgToRear, trackFront, trackRear, wheelRadius } = vehicle;
  const length = 2 * wheelRadius * k;
  const width = TYRE_WIDTH * wheelRadius * k;
  return slides
    .map((slide, wheel) => {
      const isFront = wheel >= 2;
      const x = (isFront ? cgToFront : -cgToRear) * k;
      const side = wheel % 2 === 0 ? -1 : 1;
      const y = (side * (isFront ? trackFront : trackRear) * k) / 2;
      const turn = isFront ? ` rotate(${show((-steer * 180) / Math.PI)})` : '';
      return `<rect class="${gripClass(slide)}" x="${show(-length / 2)}" y="${show(-width / 2)}" \
width="${show(length)}" height="${show(width)}" \
transform="translate(${show(x)} ${show(y)})${turn}"/>`;
    })
    .join('');
}

function tracks(vehicle: VehicleOutline, k: number, slides: readonly number[]): string {
  const { cgToFront, cgToRear, trackRear, wheelRadius } = vehicle;
  const x = -(cgToRear + wheelRadius) * k;
  const length = (cgToFront + cgToRear + 2 * wheelRadius) * k;
  const width = 1.4 * wheelRadius * k;
  return [0, 1]
    .map((side) => {
      const y = ((side === 0 ? -1 : 1) * trackRear * k) / 2 - width / 2;
      const slide = Math.max(slides[side]!, slides[side + 2]!);
      return `<rect class="${gripClass(slide)}" x="${show(x)}" y="${show(y)}" \
width="${show(length)}" height="${show(width)}"/>`;
    })
    .join('');
}

/** A number of the picture, short. */
export function show(value: number): string {
  return String(Number(value.toFixed(1)) + 0);
}
