import { createCruise, settleTime } from './cruise.ts';
import { circlePath, createFollow } from './follow.ts';
import type { Manoeuvre, ManoeuvreCar, Span } from './manoeuvre.ts';
import { bendRadius, bendSpeed, needsSteering } from './sizes.ts';
import { AHEAD, LEARNING, LIMIT, risingSpeed, SLOW, SWEEP_S } from './sweep.ts';

/** A circle driven ever faster by a driver who keeps to it. */
export const constantRadius: Manoeuvre = {
  name: 'constant-radius',
  title: 'Circle of constant radius, speed rising slowly',
  source:
    'ISO 4138:2021, constant-radius test, continuous method (from memory). Radius 12 wheelbases, ' +
    'at most 3.5 m; speed rises evenly to 95 % of the grip within 12 s.',
  meaning:
    'How much more, or less, the car must be steered the faster it takes one and the same bend.',
  headline: ['understeerGradientPerG', 'characteristicSpeed', 'criticalSpeed', 'balance'],
  kind: 'bend',
  refuses: needsSteering,
  durationS: (car) => sweep(car).toS,
  sweep,
  steady: (car) => ({ fromS: sweep(car).toS - 2, toS: sweep(car).toS }),
  createDriver: (car) => {
    const cruise = createCruise(car);
    const follow = createFollow(car, circlePath(bendRadius(car)), AHEAD * car.wheelbase, LEARNING);
    const { fromS } = sweep(car);
    const fastest = bendSpeed(car, LIMIT);
    return {
      drive: (view, sticks) => {
        cruise.keep(risingSpeed(fastest, view.t - fromS), view);
        follow.watch(view);
        sticks.throttle = cruise.throttle;
        sticks.steer = follow.steer;
        sticks.linkUp = true;
      },
    };
  },
};

function sweep(car: ManoeuvreCar): Span {
  const fromS = settleTime(car, SLOW * bendSpeed(car, LIMIT));
  return { fromS, toS: fromS + SWEEP_S };
}
