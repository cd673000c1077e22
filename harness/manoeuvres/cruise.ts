import type { DriverView, ManoeuvreCar } from './manoeuvre.ts';
import { FREE_FALL } from './sizes.ts';

/** A foot that keeps a speed with the throttle, and never brakes by driving backwards. */
export interface Cruise {
  /** The throttle stick, 0 to 1. */
  throttle: number;
  /** Once a tick: moves the stick so that the vehicle comes to `speed`, m/s. */
  keep(speed: number, view: DriverView): void;
}

/** Throttle per relative error of the speed, and per second of it. */
const GAIN = 5;
const RESET = 8;
/** Share of the grip used to gain speed, so that no wheel breaks loose. */
const EAGER = 0.3;
/** Time constant with which the wanted speed comes to rest at its goal, s. */
const EASE = 0.3;
/** Time in which what is left of an error dies away, s. */
const CALM = 1.5;
/** A longer pause between two ticks counts as this, s. */
const PAUSE = 0.1;

/**
 * PI control with feed-forward, in speeds relative to the car's no-load speed: stick = v'/vmax +
 * 5 e/vmax + 8/s times its integral, bounded 0..1; the integral rests while the stick is at an end
 * that it would push further. The wanted speed v' moves by at most 0.3 friction g and eases into
 * its goal with 0.3 s.
 */
export function createCruise(car: ManoeuvreCar): Cruise {
  const rate = riseOf(car);
  let wanted = 0;
  let integral = 0;
  let last = 0;
  const cruise: Cruise = {
    throttle: 0,
    keep: (speed, { t, vx }) => {
      const dt = Math.min(Math.max(t - last, 0), PAUSE);
      last = t;
      wanted += dt * Math.min(Math.max((speed - wanted) / EASE, -rate), rate);
      const error = (wanted - vx) / car.topSpeed;
      const stick = wanted / car.topSpeed + GAIN * error + integral;
      const pushes = (stick >= 1 && error > 0) || (stick <= 0 && error < 0);
      if (!pushes) integral += RESET * error * dt;
      cruise.throttle = Math.min(Math.max(stick, 0), 1);
    },
  };
  return cruise;
}

/** Time from rest until a speed is reached and the drive has settled, s. */
export function settleTime(car: ManoeuvreCar, speed: number): number {
  return speed / riseOf(car) + CALM;
}

/** Way covered in that time, m. */
export function settleWay(car: ManoeuvreCar, speed: number): number {
  const rate = riseOf(car);
  // What the rise loses against the full speed, and then the easing.
  const eased = Math.min(speed, rate * EASE);
  const lost = (speed * speed - eased * eased) / (2 * rate) + eased * EASE;
  return speed * settleTime(car, speed) - lost;
}

/** m/s² */
function riseOf(car: ManoeuvreCar): number {
  return EAGER * car.friction * FREE_FALL;
}
