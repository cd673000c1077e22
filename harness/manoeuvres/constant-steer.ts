import { createCruise, settleTime } from './cruise.ts';
import { circlePath, createFollow } from './follow.ts';
import type { Manoeuvre, ManoeuvreCar, Span } from './manoeuvre.ts';
import { bendRadius, bendSpeed, needsSteering } from './sizes.ts';
import { AHEAD, LEARNING, LIMIT, risingSpeed, SLOW, SWEEP_S } from './sweep.ts';

/** The steering held still, ever faster. */
export const constantSteer: Manoeuvre = {
  name: 'constant-steer',
  title: 'Steering held, speed rising slowly',
  source:
    'ISO 4138:2021, constant steering-wheel-angle test (from memory). The angle is found by ' +
    'driving a bend of 12 wheelbases, at most 3.5 m, slowly; ' +
    'in it the speed would use 95 % of the grip after 12 s.',
  meaning: 'Whether the bend widens or tightens by itself as the car gets faster.',
  headline: ['understeerGradientPerG', 'characteristicSpeed', 'criticalSpeed', 'radiusRatio'],
  kind: 'bend',
  refuses: needsSteering,
  durationS: (car) => sweep(car).toS,
  sweep,
  steady: (car) => ({ fromS: sweep(car).toS - 2, toS: sweep(car).toS }),
  createDriver: (car) => {
    const cruise = createCruise(car);
    const { fromS } = sweep(car);
    const fastest = bendSpeed(car, LIMIT);
    const follow = createFollow(car, circlePath(bendRadius(car)), AHEAD * car.wheelbase, LEARNING);
    return {
      drive: (view, sticks) => {
        cruise.keep(risingSpeed(fastest, view.t - fromS), view);
        if (view.t < fromS) follow.watch(view);
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
