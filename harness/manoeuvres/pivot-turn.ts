import type { Manoeuvre } from './manoeuvre.ts';
import { createScript } from './script.ts';

/** How long the stick is held over, and how long the vehicle is watched after, s. */
const TURN_S = 8;
const AFTER_S = 1;

/** Tracks against each other. */
export const pivotTurn: Manoeuvre = {
  name: 'pivot-turn',
  title: 'Pivot turn on the spot',
  source: 'Common practice, no source. Steering full to the left without throttle for 8 s.',
  meaning: 'How fast the vehicle turns on the spot, how true to the spot, and at what current.',
  headline: ['turnTime', 'yawTurned', 'centreDrift', 'peakCurrent', 'windingRise'],
  kind: 'pivot',
  refuses: ({ layout }) =>
    layout === 'tracked'
      ? undefined
      : 'Only tracks and skid-steered sides can be driven against each other.',
  durationS: () => TURN_S + AFTER_S,
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.steer = t < TURN_S ? 1 : 0;
    }),
};
