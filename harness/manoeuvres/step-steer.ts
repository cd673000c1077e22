import { createCruise, settleTime } from './cruise.ts';
import type { Manoeuvre, ManoeuvreCar } from './manoeuvre.ts';
import { FREE_FALL, needsSteering, scaledSpeed, stickFor } from './sizes.ts';

/** Full-size test speed, 80 km/h in m/s, and share of the grip that is to be used. */
const SPEED = 80 / 3.6;
const GRIP = 0.4;
/** How long the steering is held, s, and the part of it that counts as steady. */
const HELD_S = 2;
const STEADY_S = 0.5;

/** A sudden turn of the steering. */
export const stepSteer: Manoeuvre = {
  name: 'step-steer',
  title: 'Step of the steering',
  source:
    'ISO 7401:2011, step input, open loop (from memory): 80 km/h, 4 m/s². Speed scaled with the ' +
    'square root of length over 4.5 m, at most 70 % of top speed; the angle is that of 40 % of ' +
    'the grip without slip; the throttle stick is left where it is.',
  meaning: 'How quickly the car turns in, and whether it swings past the bend before it settles.',
  headline: ['yawResponseTime', 'yawOvershoot', 'yawPeakTime', 'tbFactor', 'yawRateGain'],
  kind: 'bend',
  refuses: needsSteering,
  actionS: beginS,
  durationS: (car) => beginS(car) + HELD_S,
  steady: (car) => ({ fromS: beginS(car) + HELD_S - STEADY_S, toS: beginS(car) + HELD_S }),
  createDriver: (car) => {
    const cruise = createCruise(car);
    const begin = beginS(car);
    const speed = scaledSpeed(car, SPEED);
    const stick = stickFor(car, speed ** 2 / (GRIP * car.friction * FREE_FALL));
    return {
      drive: (view, sticks) => {
        const isBegun = view.t >= begin;
        if (!isBegun) cruise.keep(speed, view);
        sticks.throttle = cruise.throttle;
        sticks.steer = isBegun ? stick : 0;
        sticks.linkUp = true;
      },
    };
  },
};

function beginS(car: ManoeuvreCar): number {
  return settleTime(car, scaledSpeed(car, SPEED));
}
