import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, ramp } from './script.ts';

/** Moments of the drive, s. */
const LOST_S = 3;
const BACK_S = 5.5;
const NEUTRAL_S = 6.5;
const AGAIN_S = 8;
const END_S = 9.5;
/** Where the throttle stands. */
const THROTTLE = 0.6;

/** The transmitter falls silent at speed, and comes back with the stick still forward. */
export const dropout: Manoeuvre = {
  name: 'dropout',
  title: 'Signal lost at speed',
  source:
    'Our own; the stop it is to lead to is IEC 60204-1, category 1. Throttle 60 %; silence from ' +
    '3 s to 5.5 s; then the stick still forward, neutral at 6.5 s, forward again at 8 s.',
  meaning: 'How far the car runs on without a signal, and that it waits for a neutral stick.',
  headline: ['stoppingDistance', 'stoppingTime', 'reactionTime', 'entrySpeed'],
  kind: 'straight',
  actionS: () => LOST_S,
  durationS: () => END_S,
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.linkUp = t < LOST_S || t >= BACK_S;
      const isForward = t < NEUTRAL_S || t >= AGAIN_S;
      sticks.throttle = isForward ? THROTTLE * ramp(t, 1) : 0;
    }),
};
