import type { Manoeuvre } from './manoeuvre.ts';
import { createRehearsal, rehearsalTime } from './rehearse.ts';
import { needsSteering } from './sizes.ts';

/** How long the steering is held, s, and the part of it that counts as steady. */
const HELD_S = 2;
const STEADY_S = 0.5;

/** A sudden turn of the steering. */
export const stepSteer: Manoeuvre = {
  name: 'step-steer',
  title: 'Step of the steering',
  source:
    'ISO 7401:2011, step input (from memory): 80 km/h, 4 m/s². Here 40 % of the grip in a bend ' +
    'of 46 wheelbases, which is that in full size, at most 3.5 m; the stick for it is found in ' +
    'that bend, then the car goes straight for 1.5 s; the driver keeps the speed.',
  meaning: 'How quickly the car turns in, and whether it swings past the bend before it settles.',
  headline: ['yawResponseTime', 'yawOvershoot', 'lateralResponseTime', 'yawRateGain'],
  kind: 'bend',
  refuses: needsSteering,
  actionS: rehearsalTime,
  durationS: (car) => rehearsalTime(car) + HELD_S,
  steady: (car) => ({
    fromS: rehearsalTime(car) + HELD_S - STEADY_S,
    toS: rehearsalTime(car) + HELD_S,
  }),
  createDriver: (car) => {
    const rehearsal = createRehearsal(car);
    const begin = rehearsalTime(car);
    return {
      drive: (view, sticks) => {
        rehearsal.drive(view);
        sticks.throttle = rehearsal.throttle;
        sticks.steer = view.t < begin ? rehearsal.steer : rehearsal.found;
        sticks.linkUp = true;
      },
    };
  },
};
