import { createCruise, settleTime } from './cruise.ts';
import { circlePath, createFollow } from './follow.ts';
import type { DriverView, ManoeuvreCar } from './manoeuvre.ts';
import { bendSpeed, wideRadius } from './sizes.ts';
import { AHEAD, LEARNING } from './sweep.ts';

/** Share of the grip that the steering is to use. */
const GRIP = 0.4;
/** Time on the bend to find the stick, its last part over which it is averaged, straight on, s. */
const BEND_S = 1;
const MEAN_S = 0.5;
const STRAIGHT_S = 1.5;

/** A driver who finds out how far to steer, then goes straight on. */
export interface Rehearsal {
  /** Sticks, as in Sticks. */
  throttle: number;
  steer: number;
  /** The stick that uses 40 % of the grip at this speed; known after the bend. */
  found: number;
  /** Once a tick, all through the manoeuvre: keeps the speed. */
  drive(view: DriverView): void;
}

/**
 * ISO 7401 has the steering amplitude found beforehand in a steady bend (from memory). So is it
 * here, which takes dead band, curve and limits of the sticks into account.
 */
export function createRehearsal(car: ManoeuvreCar): Rehearsal {
  const speed = testSpeed(car);
  const cruise = createCruise(car);
  const follow = createFollow(car, circlePath(wideRadius(car)), AHEAD * car.wheelbase, LEARNING);
  const bendEnd = rehearsalTime(car) - STRAIGHT_S;
  let sum = 0;
  let count = 0;
  const rehearsal: Rehearsal = {
    throttle: 0,
    steer: 0,
    found: 0,
    drive: (view) => {
      const isBend = view.t < bendEnd;
      cruise.keep(speed, view);
      if (isBend) follow.watch(view);
      rehearsal.throttle = cruise.throttle;
      if (isBend && view.t >= bendEnd - MEAN_S) {
        // The stick at any one moment carries what the receiver's noise has just done to the car.
        sum += follow.steer;
        rehearsal.found = sum / ++count;
      }
      rehearsal.steer = isBend ? follow.steer : 0;
    },
  };
  return rehearsal;
}

/** When it is over and the test may begin, s. */
export function rehearsalTime(car: ManoeuvreCar): number {
  return settleTime(car, testSpeed(car)) + BEND_S + STRAIGHT_S;
}

function testSpeed(car: ManoeuvreCar): number {
  return bendSpeed(car, GRIP, wideRadius(car));
}
