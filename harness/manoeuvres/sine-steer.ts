import { createCruise, settleTime } from './cruise.ts';
import type { Manoeuvre, ManoeuvreCar } from './manoeuvre.ts';
import { FREE_FALL, needsSteering, scaledSpeed, stickFor, timeScale } from './sizes.ts';

/** Full-size test speed, 80 km/h in m/s, and share of the grip that is to be used. */
const SPEED = 80 / 3.6;
const GRIP = 0.4;
/** Full-size period, s, and time to settle after it, s. */
const PERIOD = 2;
const AFTER_S = 1;

/** One wave of the steering. */
export const sineSteer: Manoeuvre = {
  name: 'sine-steer',
  title: 'One sine of the steering',
  source:
    'ISO 7401:2011, sinusoidal input, one period (from memory): 0.5 Hz, 80 km/h, 4 m/s². Period ' +
    'and speed scaled with the square root of length over 4.5 m, speed at most 70 % of top ' +
    'speed; the greatest angle is that of 40 % of the grip without slip.',
  meaning: 'How far the car lags behind a quick left and right, and whether it swings on after it.',
  headline: ['yawLag', 'yawRateGain', 'sideslip', 'headingChange'],
  kind: 'bend',
  refuses: needsSteering,
  actionS: beginS,
  durationS: (car) => beginS(car) + PERIOD * timeScale(car) + AFTER_S,
  createDriver: (car) => {
    const cruise = createCruise(car);
    const begin = beginS(car);
    const speed = scaledSpeed(car, SPEED);
    const period = PERIOD * timeScale(car);
    const stick = stickFor(car, speed ** 2 / (GRIP * car.friction * FREE_FALL));
    return {
      drive: (view, sticks) => {
        const phase = (view.t - begin) / period;
        if (phase < 0) cruise.keep(speed, view);
        sticks.throttle = cruise.throttle;
        sticks.steer = phase > 0 && phase < 1 ? stick * Math.sin(2 * Math.PI * phase) : 0;
        sticks.linkUp = true;
      },
    };
  },
};

function beginS(car: ManoeuvreCar): number {
  return settleTime(car, scaledSpeed(car, SPEED));
}
