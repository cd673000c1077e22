import { createCruise, settleTime } from './cruise.ts';
import { circlePath, createFollow } from './follow.ts';
import type { Manoeuvre, ManoeuvreCar } from './manoeuvre.ts';
import { bendRadius, bendSpeed, needsSteering } from './sizes.ts';
import { AHEAD, LEARNING } from './sweep.ts';

/** Share of the grip in use, time on the circle before, and time watched after, s. */
const GRIP = 0.7;
const CIRCLE_S = 2;
const AFTER_S = 1.5;

/** The throttle let go in a bend. */
export const liftOff: Manoeuvre = {
  name: 'lift-off',
  title: 'Throttle let go in a bend',
  source:
    'ISO 9816:2018, power-off reaction in a turn (from memory). Radius 12 wheelbases, at most ' +
    '3.5 m, at 70 % of the grip; from then on the steering stick is left where it is.',
  meaning: 'Whether the nose tucks in, or the tail comes round, when the driver takes fright.',
  headline: ['tuckIn', 'sideslip', 'balance', 'yawRate'],
  kind: 'bend',
  refuses: needsSteering,
  actionS,
  durationS: (car) => actionS(car) + AFTER_S,
  createDriver: (car) => {
    const cruise = createCruise(car);
    const follow = createFollow(car, circlePath(bendRadius(car)), AHEAD * car.wheelbase, LEARNING);
    const action = actionS(car);
    const speed = bendSpeed(car, GRIP);
    return {
      drive: (view, sticks) => {
        const isLifted = view.t >= action;
        if (!isLifted) {
          cruise.keep(speed, view);
          follow.watch(view);
        }
        sticks.throttle = isLifted ? 0 : cruise.throttle;
        sticks.steer = follow.steer;
        sticks.linkUp = true;
      },
    };
  },
};

function actionS(car: ManoeuvreCar): number {
  return settleTime(car, bendSpeed(car, GRIP)) + CIRCLE_S;
}
