import { splitGround } from '../plant/ground.ts';
import type { Manoeuvre } from './manoeuvre.ts';
import { createScript, ramp } from './script.ts';

/** Friction under the right wheels over that under the left ones. */
const SHARE = 0.4;

/** A start with one side on a worse floor. */
export const splitStart: Manoeuvre = {
  name: 'split-start',
  title: 'Start with the right wheels on a slippery strip',
  source:
    'Common practice, no source; ISO 14512 has the same floor for braking (from memory). Right ' +
    'half of the floor with 40 % of the friction; throttle to full over 1 s, steering at rest.',
  meaning: 'How far the car is pulled off its line when one side finds no grip.',
  headline: ['sideways', 'headingChange', 'wheelSlipTime', 'distance'],
  kind: 'straight',
  durationS: () => 3,
  ground: ({ base }) => {
    const friction = SHARE * base.friction;
    return splitGround(base, { ...base, name: `${base.name}, slippery strip`, friction });
  },
  createDriver: () =>
    createScript((t, sticks) => {
      sticks.throttle = ramp(t, 1);
    }),
};
