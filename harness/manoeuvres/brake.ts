import type { Manoeuvre } from './manoeuvre.ts';
import { createScript } from './script.ts';

/** How long the run-up takes, and how long the car is given to stop, s. */
const RUN_S = 4;
const STOP_S = 4;

/** The stick let go at top speed. */
export const brake: Manoeuvre = {
  name: 'brake',
  title: 'Stick to neutral at top speed',
  source:
    'Common practice, no source; distance from the moment the stick moves, ' +
    'as in ISO 21994 (from memory).',
  meaning: 'How far the car runs on when the stick is let go.',
  headline: ['stoppingDistance', 'stoppingTime', 'deceleration', 'entrySpeed'],
  kind: 'straight',
  actionS: () => RUN_S,
  durationS: () => RUN_S + STOP_S,
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.throttle = t < RUN_S ? 1 : 0;
    }),
};
