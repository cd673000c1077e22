import { createCruise, settleTime } from './cruise.ts';
import type { Manoeuvre, ManoeuvreCar, Span } from './manoeuvre.ts';
import { bendRadius, bendSpeed, FREE_FALL, needsSteering, stickFor } from './sizes.ts';
import { LIMIT, SWEEP_S } from './sweep.ts';

/** The stick goes this many times as far as the bend's geometry asks, unless grip ends before. */
const BEYOND = 3;

/** The speed held, the steering turned ever further. */
export const constantSpeed: Manoeuvre = {
  name: 'constant-speed',
  title: 'Constant speed, steering turned slowly',
  source:
    'ISO 4138:2021, constant-speed test with rising steering angle (from memory). The speed is ' +
    'that which uses 95 % of the grip in a bend of 12 wheelbases, at most 3.5 m; the stick moves ' +
    'on evenly for 12 s to three times what this bend asks for, ' +
    'or until 95 % of the grip are used.',
  meaning:
    'How much the car turns for a given angle at one speed, and what is left near the limit.',
  headline: [
    'understeerGradientPerG',
    'characteristicSpeed',
    'criticalSpeed',
    'lateralAcceleration',
  ],
  kind: 'bend',
  refuses: needsSteering,
  durationS: (car) => sweep(car).toS,
  sweep,
  steady: (car) => ({ fromS: sweep(car).toS - 1, toS: sweep(car).toS }),
  createDriver: (car) => {
    const cruise = createCruise(car);
    const { fromS } = sweep(car);
    const speed = bendSpeed(car, LIMIT);
    const farthest = Math.min(BEYOND * stickFor(car, bendRadius(car)), 1);
    const limit = LIMIT * car.friction * FREE_FALL;
    let stick = 0;
    return {
      drive: (view, sticks) => {
        cruise.keep(speed, view);
        const share = Math.max((view.t - fromS) / SWEEP_S, 0);
        if (view.vx * view.yawRate < limit) stick = Math.max(stick, farthest * share);
        sticks.throttle = cruise.throttle;
        sticks.steer = Math.min(stick, farthest);
        sticks.linkUp = true;
      },
    };
  },
};

function sweep(car: ManoeuvreCar): Span {
  const fromS = settleTime(car, bendSpeed(car, LIMIT));
  return { fromS, toS: fromS + SWEEP_S };
}
