import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, ramp } from './script.ts';

/** When the wheel jams, and the end, s. */
const JAM_S = 2.5;
const END_S = 6;
/** Where the throttle stands. */
const THROTTLE = 0.5;

/** The right rear wheel is blocked. */
export const jam: Manoeuvre = {
  name: 'jam',
  title: 'Right rear wheel jams',
  source:
    'Common practice, no source. Throttle 50 %, right rear wheel blocked from 2.5 s, stick held.',
  meaning: 'How soon the core takes the current off a stalled motor, and how warm it gets.',
  headline: ['reactionTime', 'windingRise', 'peakCurrent', 'stoppingDistance', 'headingChange'],
  kind: 'straight',
  actionS: () => JAM_S,
  durationS: () => END_S,
  faults: () => [{ atS: JAM_S, faults: [{ kind: 'jammedWheel', wheel: 1 }] }],
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.throttle = THROTTLE * ramp(t, 1);
    }),
};
