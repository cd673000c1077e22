import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, startAfterStart } from './script.ts';

/** How many, one each so many seconds; how long the throttle is open, and opens, s. */
const COUNT = 6;
const EVERY_S = 2.5;
const POWER_S = 0.8;
const RISE_S = 0.2;

/** Full throttle from rest, again and again: what the core learns from, and compares. */
export const starts: Manoeuvre = {
  name: 'starts',
  title: 'Six starts, straight on',
  source:
    'Common practice, no source. Every 2.5 s throttle to full within 0.2 s, let go after 0.8 s, ' +
    'steering at rest.',
  meaning:
    'How hard the car starts, and, with lostDrive@7:frontDrive, in which start a front drive ' +
    'that was lost is told.',
  headline: ['topSpeed', 'distance', 'wheelSlipTime', 'peakCurrent', 'windingRise'],
  kind: 'straight',
  durationS: () => COUNT * EVERY_S,
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.throttle = startAfterStart(t, EVERY_S, POWER_S, RISE_S);
    }),
};
