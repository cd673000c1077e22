import type { Manoeuvre } from './manoeuvre.ts';
import { createRehearsal, rehearsalTime } from './rehearse.ts';
import { needsSteering, timeScale } from './sizes.ts';

/** Full-size period, s, and time to settle after it, s. */
const PERIOD = 2;
const AFTER_S = 1;

/** One wave of the steering. */
export const sineSteer: Manoeuvre = {
  name: 'sine-steer',
  title: 'One sine of the steering',
  source:
    'ISO 7401:2011, sinusoidal input, one period (from memory): 0.5 Hz, 80 km/h, 4 m/s². The ' +
    'period is scaled with the square root of length over 4.5 m; speed and greatest angle are ' +
    'those of step-steer.',
  meaning: 'How far the car lags behind a quick left and right, and whether it swings on after it.',
  headline: ['yawLag', 'yawRateGain', 'sideslip', 'headingChange'],
  kind: 'bend',
  refuses: needsSteering,
  actionS: rehearsalTime,
  durationS: (car) => rehearsalTime(car) + PERIOD * timeScale(car) + AFTER_S,
  createDriver: (car) => {
    const rehearsal = createRehearsal(car);
    const begin = rehearsalTime(car);
    const period = PERIOD * timeScale(car);
    return {
      drive: (view, sticks) => {
        rehearsal.drive(view);
        const phase = (view.t - begin) / period;
        const wave = phase < 1 ? rehearsal.found * Math.sin(2 * Math.PI * phase) : 0;
        sticks.throttle = rehearsal.throttle;
        sticks.steer = phase < 0 ? rehearsal.steer : wave;
        sticks.linkUp = true;
      },
    };
  },
};
