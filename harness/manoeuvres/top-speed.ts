import type { Manoeuvre } from './manoeuvre.ts';
import { createScript } from './script.ts';

/** Way there is room for, m; time on top for getting there, and the longest drive, s. */
const ROOM = 18;
const EXTRA_S = 1.5;
const LONGEST_S = 8;

/** Full throttle straight on. */
export const topSpeed: Manoeuvre = {
  name: 'top-speed',
  title: 'Straight run to top speed',
  source: 'Common practice, no source. Full throttle at once, in the length of a hall of 20 m.',
  meaning: 'How fast the car gets, how soon, and what its motors and cells bear on the way.',
  headline: ['topSpeed', 'timeToTopSpeed', 'peakCurrent', 'lowestSupply', 'windingRise'],
  kind: 'straight',
  durationS: ({ topSpeed }) => Math.min(ROOM / topSpeed + EXTRA_S, LONGEST_S),
  createDriver: () =>
    createScript((_, sticks) => {
      sticks.throttle = 1;
    }),
};
