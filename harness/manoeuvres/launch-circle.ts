import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, ramp } from './script.ts';

/** Time from no throttle to full throttle, and of the whole, s. */
const RISE_S = 1;
const DURATION_S = 4;

/** Everything at once: the drive by which the split is set. */
export const launchCircle: Manoeuvre = {
  name: 'launch-circle',
  title: 'Full lock and full throttle from rest',
  source:
    'Common practice, no source: how a split is set by trial. Full lock at once, throttle to ' +
    'full over 1 s, held for 3 s.',
  meaning: 'Whether the vehicle follows its steering under power, ploughs straight on or spins.',
  headline: ['radiusRatio', 'balance', 'sideslip', 'pathRadius', 'wheelSlipTime'],
  kind: 'bend',
  durationS: () => DURATION_S,
  steady: () => ({ fromS: DURATION_S - 1.5, toS: DURATION_S }),
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.steer = 1;
      sticks.throttle = ramp(t, RISE_S);
    }),
};
