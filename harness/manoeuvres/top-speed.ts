import type { Manoeuvre } from './manoeuvre.ts';
import { createScript } from './script.ts';

/** Full throttle straight on. */
export const topSpeed: Manoeuvre = {
  name: 'top-speed',
  title: 'Straight run to top speed',
  source: 'Common practice, no source.',
  meaning: 'How fast the car gets, how soon, and what its motors and cells bear on the way.',
  headline: ['topSpeed', 'timeToTopSpeed', 'peakCurrent', 'lowestSupply', 'windingRise'],
  kind: 'straight',
  durationS: () => 6,
  createDriver: () =>
    createScript((_, sticks) => {
      sticks.throttle = 1;
    }),
};
