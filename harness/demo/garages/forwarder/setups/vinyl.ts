// Setup sheet for shows in the sports hall: the tracks slip easily, so it may turn on the spot.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'vinyl',
  surface: 'sports-hall vinyl',
  throttle: { expoPercent: 20, reverseLimitPercent: 100 },
  // Without a servo to wait for, the steering may follow the stick.
  steering: { expoPercent: 40, ratePercentPerS: 800 },
  // The inside track slows as geometry asks; without throttle both turn against each other, which
  // fades out by a quarter of the throttle.
  split: {
    geometrySharePercent: 100,
    cutCeilingPercent: 80,
    pivotPercent: 60,
    pivotFadePercent: 25,
  },
  slew: { risePercentPerS: 150, fallPercentPerS: 400, dwellMs: 150 },
  // Turned to one side for good would be a circle; a lost machine goes straight on and stops.
  link: { holdMs: 200, steeringOnLoss: 0 },
  guest: { capPercent: 50 },
});
