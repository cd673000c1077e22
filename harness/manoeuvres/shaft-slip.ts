import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, ramp } from './script.ts';

/** When the shaft lets go, when the throttle opens fully, and the end, s. */
const SLIP_S = 2.5;
const FULL_S = 4;
const END_S = 5.5;

/** The shaft of the right rear wheel slips out of its gear. */
export const shaftSlip: Manoeuvre = {
  name: 'shaft-slip',
  title: 'Right rear shaft slips under power',
  source:
    'Common practice, no source. Throttle 50 %, right rear shaft slips at 2.5 s, full throttle ' +
    'from 4 s.',
  meaning: 'What a lost drive does to the course, and what it looks like in the currents.',
  headline: ['sideways', 'headingChange', 'reactionTime', 'wheelSlipTime', 'peakCurrent'],
  kind: 'straight',
  actionS: () => SLIP_S,
  durationS: () => END_S,
  faults: () => [{ atS: SLIP_S, faults: [{ kind: 'slippedShaft', wheel: 1 }] }],
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.throttle = t < FULL_S ? 0.5 * ramp(t, 1) : 1;
    }),
};
