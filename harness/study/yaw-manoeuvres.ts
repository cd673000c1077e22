import { findManoeuvre } from '../manoeuvres/find-manoeuvre.ts';
import type { Manoeuvre } from '../manoeuvres/manoeuvre.ts';
import { createScript, ramp } from '../manoeuvres/script.ts';

/** Time to the full share of the throttle, and length of the whole, s. */
const RISE_S = 1;
const LENGTH_S = 4;
/** Time watched after the throttle is let go, s; by then every car stands. */
const AFTER_LIFT_S = 1.5;

/** Manoeuvres in which a car turns under power: sticks held, then drivers who look. */
export const YAW_MANOEUVRES: readonly Manoeuvre[] = [
  powerBend(1, 1),
  powerBend(0.85, 1),
  powerBend(0.7, 1),
  powerBend(0.5, 1),
  powerBend(1, 0.8),
  powerBend(0.7, 0.8),
  powerBend(1, -1),
  ...['constant-radius', 'constant-steer', 'constant-speed'].map(findManoeuvre),
  ...['step-steer', 'sine-steer', 'slalom', 'lane-change'].map(findManoeuvre),
];

/** Let go of the throttle in a bend: not under power, but a bend that was entered with it. */
export const AFTER_POWER: readonly Manoeuvre[] = [findManoeuvre('lift-off')];

/**
 * Let go of the throttle with the sticks held until then: where the car spins without yaw assist,
 * or ploughs, it comes to that moment at another speed with it, so that there is no goal.
 */
export const FROM_THE_LIMIT: readonly Manoeuvre[] = [
  liftedBend(1, 1.3),
  liftedBend(1, 2.5),
  liftedBend(0.7, 2.5),
  liftedBend(0.5, 2.5),
];

/** The same manoeuvre to the other side. */
export function mirrored(manoeuvre: Manoeuvre): Manoeuvre {
  return {
    ...manoeuvre,
    createDriver: (car) => {
      const driver = manoeuvre.createDriver(car);
      return {
        drive: (view, sticks) => {
          const { y, yaw, vy, yawRate } = view;
          driver.drive({ ...view, y: -y, yaw: -yaw, vy: -vy, yawRate: -yawRate }, sticks);
          sticks.steer = -sticks.steer;
        },
      };
    },
  };
}

/** A launch with a share of the lock and of the throttle held; negative throttle is reverse. */
function powerBend(lock: number, throttle: number): Manoeuvre {
  const percent = (share: number) => `${Math.round(100 * Math.abs(share))}`;
  const way = throttle < 0 ? 'reverse' : 'power';
  return {
    ...findManoeuvre('launch-circle'),
    name: `${way}-${percent(lock)}-${percent(throttle)}`,
    title: `${percent(lock)} % of the lock, ${percent(throttle)} % of the throttle from rest`,
    steady: () => ({ fromS: LENGTH_S - 1.5, toS: LENGTH_S }),
    durationS: () => LENGTH_S,
    createDriver: () =>
      createScript((t, sticks) => {
        sticks.steer = lock;
        sticks.throttle = throttle * ramp(t, RISE_S);
      }),
  };
}

/** A bend at full throttle that is let go at a time, s; the steering stick stays where it is. */
function liftedBend(lock: number, atS: number): Manoeuvre {
  const { steady: _, ...bend } = powerBend(lock, 1);
  const percent = `${Math.round(100 * lock)}`;
  return {
    ...bend,
    name: `lift-${percent}-at-${atS}`,
    title: `${percent} % of the lock, full throttle from rest, let go after ${atS} s`,
    actionS: () => atS,
    durationS: () => atS + AFTER_LIFT_S,
    createDriver: () =>
      createScript((t, sticks) => {
        sticks.steer = lock;
        sticks.throttle = t >= atS ? 0 : ramp(t, RISE_S);
      }),
  };
}
