import type { ManoeuvreCar } from './manoeuvre.ts';

/** Acceleration of free fall, m/s²; a model drives under the same one as a full-size car. */
export const FREE_FALL = 9.81;
/** The passenger car standards have in mind, m; an assumption. */
export const FULL_LENGTH = 4.5;
export const FULL_WIDTH = 1.8;

/** Bends of so many wheelbases, and room of a hall's floor for them, m. */
const BEND = 12;
const FAST_BEND = 46;
const WIDEST = 3.5;
/** Share of its no-load speed at which a car still has power to spare. */
const SPARE = 0.7;
/** A bend is this much wider than the tightest the steering gives. */
const ROOM = 1.5;

/**
 * Radius of the bend for circle tests, m: 12 wheelbases (a full-size car on ISO 4138's 30 to 40 m,
 * from memory), no wider than a floor of 10 m has room for, and so tight that the car reaches the
 * limit of grip with power to spare, but never near the tightest it can steer.
 */
export function bendRadius(car: ManoeuvreCar): number {
  const fast = (SPARE * car.topSpeed) ** 2 / (car.friction * FREE_FALL);
  const tightest = car.wheelbase / Math.tan(car.lock);
  return Math.max(Math.min(BEND * car.wheelbase, WIDEST, fast), ROOM * tightest);
}

/**
 * Radius of the wide bend for tests of quick steering, m: 46 wheelbases, as a full-size car at
 * 80 km/h and 4 m/s², no wider than a floor of 10 m has room for.
 */
export function wideRadius(car: ManoeuvreCar): number {
  return Math.max(Math.min(FAST_BEND * car.wheelbase, WIDEST), bendRadius(car));
}

/**
 * Speed in a bend, m/s, at which a share of the grip is used: v² / R = share x friction x g; no
 * more than the car reaches with power to spare.
 */
export function bendSpeed(car: ManoeuvreCar, share: number, radius = bendRadius(car)): number {
  const grip = Math.sqrt(share * car.friction * FREE_FALL * radius);
  return Math.min(grip, SPARE * car.topSpeed);
}

/**
 * Time in the vehicle's scale over time in full size. As g is not scaled, lengths go with the
 * scale, and times and speeds with its square root (Froude).
 */
export function timeScale(car: ManoeuvreCar): number {
  return Math.sqrt(car.length / FULL_LENGTH);
}

/** A full-size speed in m/s, scaled to the vehicle, no faster than it can with power to spare. */
export function scaledSpeed(car: ManoeuvreCar, fullSize: number): number {
  return Math.min(fullSize * timeScale(car), SPARE * car.topSpeed);
}

/** Steering stick for a bend of that radius without slip, 0 to 1. */
export function stickFor(car: ManoeuvreCar, radius: number): number {
  return Math.min(Math.atan(car.wheelbase / radius) / car.lock, 1);
}

/** Why a vehicle without steered wheels cannot drive a steering test, or undefined. */
export function needsSteering(car: ManoeuvreCar): string | undefined {
  if (car.layout !== 'tracked') return undefined;
  return 'A tracked vehicle has no steering angle to which its turning could be related.';
}
