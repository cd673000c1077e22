import type { Manoeuvre } from './manoeuvre.ts';

/** How long the run-up takes, and how long the car is given to stop, s. */
const RUN_S = 4;
const STOP_S = 4;
/** Speed at which the driver lets go, m/s. */
const SLOW = 0.2;

/** The stick pulled right back at top speed, and let go when the car has almost stopped. */
export const brakeHard: Manoeuvre = {
  name: 'brake-hard',
  title: 'Full reverse at top speed',
  source:
    'Common practice, no source; distance from the moment the stick moves, ' +
    'as in ISO 21994 (from memory).',
  meaning:
    'The shortest stop, what it does to motors and cells, and whether the tail stays behind.',
  headline: ['stoppingDistance', 'stoppingTime', 'deceleration', 'peakCurrent', 'headingChange'],
  kind: 'straight',
  actionS: () => RUN_S,
  durationS: () => RUN_S + STOP_S,
  createDriver: () => {
    let isDone = false;
    return {
      drive: ({ t, vx }, sticks) => {
        if (t > RUN_S && vx < SLOW) isDone = true;
        sticks.throttle = t < RUN_S ? 1 : isDone ? 0 : -1;
        sticks.steer = 0;
        sticks.linkUp = true;
      },
    };
  },
};
