import { hill as slope } from '../plant/ground.ts';
import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, ramp } from './script.ts';

/** Steepest slope, rise over run, and share of the friction it may take. */
const RISE = 0.2;
const GRIP = 0.4;
/** Standing, climbing, standing again, s. */
const START_S = 1;
const CLIMB_S = 4;
const END_S = 7;

/** A start on a slope, a climb, and a stop on it. */
export const hill: Manoeuvre = {
  name: 'hill',
  title: 'Start, climb and stop on a slope',
  source:
    'Common practice, no source. A slope of 20 %, less where the floor holds less; neutral for ' +
    '1 s, full throttle to 4 s, neutral to 7 s.',
  meaning: 'Whether the car gets up a ramp, how hot that makes it, and how far it rolls back.',
  headline: ['rollBack', 'topSpeed', 'windingRise', 'peakCurrent', 'wheelSlipTime'],
  kind: 'straight',
  durationS: () => END_S,
  ground: (surface) => slope(surface, Math.atan(Math.min(RISE, GRIP * surface.base.friction))),
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.throttle = t < CLIMB_S ? ramp(t - START_S, 0.5) : 0;
    }),
};
