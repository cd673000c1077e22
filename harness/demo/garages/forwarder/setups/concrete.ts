// Setup sheet for work in the yard: tracks grip, and a turn on the spot would throw one.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'concrete',
  surface: 'damp concrete',
  throttle: { expoPercent: 30, reverseLimitPercent: 100 },
  steering: { expoPercent: 50, ratePercentPerS: 500 },
  // Here the mean of both tracks keeps the demand, so that a load does not stop it in a bend.
  split: { geometrySharePercent: 100, cutCeilingPercent: 60, meanSharePercent: 60 },
  slew: { risePercentPerS: 100, fallPercentPerS: 300, dwellMs: 200 },
  link: { holdMs: 200, steeringOnLoss: 0 },
  guest: { capPercent: 50 },
});
