import type { Manoeuvre, ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import type { Trace } from '../metrics/trace.ts';
import { createTyreModel } from '../plant/create-tyre-model.ts';
import type { Ground } from '../plant/ground.ts';
import type { PlantDescription } from '../plant/plant-description.ts';
import type { FloorPatch, PathDrive, PathView } from '../report/path-view.ts';
import { SETUP_STYLES } from './drive-panels.ts';

/** A drive and what is to be said of it. */
export interface ToldDrive {
  name: string;
  trace: Trace;
  /** In a sentence. */
  verdict: string;
}

/** The drives of a manoeuvre as a report draws them from above. */
export function describePath(
  plant: PlantDescription,
  manoeuvre: Manoeuvre,
  car: ManoeuvreCar,
  drives: readonly ToldDrive[],
): PathView {
  const { body, wheelRadius } = plant;
  const ground = manoeuvre.ground?.(plant.ground) ?? plant.ground;
  return {
    drives: drives.map((drive, i) => pathOf(plant, drive, i)),
    vehicle: {
      length: car.length,
      width: car.width,
      cgToFront: body.cgToFront,
      cgToRear: body.cgToRear,
      trackFront: body.trackFront,
      trackRear: body.trackRear,
      wheelRadius: wheelRadius[0]!,
      isTracked: car.layout === 'tracked',
    },
    patches: patchesOf(ground),
    gates: manoeuvre.course?.(car) ?? [],
    notes: ground.gradient === 0 ? [] : [slope(ground)],
  };
}

function pathOf(plant: PlantDescription, drive: ToldDrive, i: number): PathDrive {
  const { t, x, y, yaw, steerAngle } = drive.trace;
  return {
    name: drive.name,
    verdict: drive.verdict,
    style: SETUP_STYLES[i]!,
    hue: i,
    t,
    x,
    y,
    yaw,
    steer: steerAngle,
    slide: [0, 1, 2, 3].map((wheel) => slideOf(plant, drive.trace, wheel)),
  };
}

/** A tyre whose force never falls counts as sliding from here on. */
const LATEST_PEAK = 0.5;

/** Slip of a wheel against its rolling speed, over the slip of greatest force on the base floor. */
function slideOf(plant: PlantDescription, trace: Trace, wheel: number): Float64Array {
  const axle = wheel < 2 ? plant.tyres.rear : plant.tyres.front;
  const { base } = plant.ground;
  const model = createTyreModel(base.tyre, axle.stiffness);
  const friction = base.friction * axle.friction;
  const ratios = trace.slipRatio[wheel]!;
  const angles = trace.slipAngle[wheel]!;
  const loads = trace.load[wheel]!;
  return Float64Array.from({ length: trace.count }, (_, i) => {
    const ratio = ratios[i]!;
    const across = Math.abs(Math.tan(angles[i]!));
    // The ratio is taken against the faster of wheel and floor, this slip against the wheel.
    const [sx, sy] =
      ratio >= 0
        ? [ratio, across * (1 - ratio)]
        : [ratio / Math.max(1 + ratio, 1e-3), across / Math.max(1 + ratio, 1e-3)];
    const peak = Math.min(model.peakSlip(friction, Math.max(loads[i]!, 1e-6)), LATEST_PEAK);
    return Math.hypot(sx, sy) / peak;
  });
}

function patchesOf({ base, patches }: Ground): FloorPatch[] {
  const [only, ...more] = patches;
  const isSplit =
    only !== undefined &&
    more.length === 0 &&
    only.fromX === -Infinity &&
    only.toX === Infinity &&
    only.toY === Infinity;
  // Of two halves the more slippery one is marked.
  if (isSplit && base.friction < only.material.friction) {
    const { fromX, toX, fromY } = only;
    return [{ fromX, toX, fromY: -Infinity, toY: fromY, name: nameOf(base) }];
  }
  return patches.map(({ material, ...area }) => ({ ...area, name: nameOf(material) }));
}

function nameOf({ name, friction }: Ground['base']): string {
  return `${name}, friction ${Number(friction.toFixed(2))}`;
}

function slope({ gradient, uphill }: Ground): string {
  const percent = (Math.tan(gradient) * 100).toFixed(0);
  const degrees = ((uphill * 180) / Math.PI).toFixed(0);
  return (
    `The floor rises by ${percent} %, ` +
    `${degrees === '0' ? 'to the right' : `at ${degrees}° from the right`}.`
  );
}
