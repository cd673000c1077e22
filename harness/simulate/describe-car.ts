import type { ManoeuvreCar } from '../manoeuvres/manoeuvre.ts';
import type { PlantDescription } from '../plant/plant-description.ts';

/** Outer length over wheelbase and outer width over track, as cars usually are; assumptions. */
const LENGTH_SHARE = 1.45;
const WIDTH_SHARE = 1.2;

/**
 * What a manoeuvre may know of a plant's vehicle.
 *
 * @param layout of the core's motors
 * @param lock angle at full steering, rad; left out = that of the plant's steered wheels
 */
export function describeCar(
  plant: PlantDescription,
  layout: ManoeuvreCar['layout'],
  lock = plant.steering.lock,
): ManoeuvreCar {
  const { body, ground, wheelRadius, driveline } = plant;
  const wheelbase = body.cgToFront + body.cgToRear;
  const track = Math.max(body.trackFront, body.trackRear);
  // Straight ahead all wheels turn alike, so a motor turns as often as its row adds up to.
  const ratio = Math.abs(driveline.motors[0]!.reduce((sum, turns) => sum + turns, 0));
  const voltage = Math.max(...plant.battery.openCircuit);
  return {
    layout,
    wheelbase,
    track,
    cgToFront: body.cgToFront,
    length: LENGTH_SHARE * wheelbase,
    width: WIDTH_SHARE * track,
    lock,
    topSpeed: (voltage / plant.motors[0]!.constant / ratio) * wheelRadius[0]!,
    friction: ground.base.friction,
  };
}
