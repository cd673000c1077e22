// Setup sheet for the sports hall. Smooth and slippery: the rear motors can spin all four wheels.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'vinyl',
  surface: 'sports-hall vinyl',

  throttle: {
    expoPercent: 40,
    forwardLimitPercent: 80,
    reverseLimitPercent: 40,
  },
  steering: {
    expoPercent: 30,
    // At top speed full lock would only scrub the front tyres.
    atTopSpeedPercent: 60,
  },

  // The heart of the sheet: how much slower the inside wheel runs than the outside one. 0 % makes
  // the car plough straight on under power, too much brings its tail round. Start low, drive a full
  // lock circle under power, raise it until the car follows, and stop before the tail steps out.
  split: {
    geometrySharePercent: 40,
    cutAtFullLockPercent: 2,
    cutCurve: 1.5,
    cutCeilingPercent: 15,
  },

  // The gyro's say. Set the split above without it first: a gyro that falls silent leaves you that
  // car. Then give it authority, so that full throttle at full lock no longer brings the tail round
  // where the floor is freshly waxed. It only ever takes cut away, and beyond 0 % slows the outside
  // wheel; where the car turns in as it should, you will not notice it.
  yawAssist: {
    authorityPercent: 25,
    // What the floor bears where it is slippery: its frictionLow in surfaces.ts. With the mean
    // instead, the tail would be round before the gyro has anything to object to.
    gripG: 0.5,
  },

  // Gentle, so that a launch does not spin the wheels.
  slew: {
    risePercentPerS: 200,
    fallPercentPerS: 500,
  },

  link: { holdMs: 300, steeringOnLoss: 'hold' },
  guest: { capPercent: 35 },
});
