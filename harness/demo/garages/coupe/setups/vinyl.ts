// Setup sheet for the sports hall. Rear drive on a slippery floor: power turns the car, so the
// split stays small and the throttle soft. Simulated at full lock and full throttle, the tail steps
// out from a forward limit of about 60 % on, whatever the split; half leaves some room.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'vinyl',
  surface: 'sports-hall vinyl',
  throttle: { expoPercent: 50, forwardLimitPercent: 50, reverseLimitPercent: 35, smoothingMs: 40 },
  steering: { expoPercent: 25, atTopSpeedPercent: 70 },
  split: { geometrySharePercent: 30, cutCeilingPercent: 12 },
  slew: { risePercentPerS: 150, fallPercentPerS: 400 },
  guest: { capPercent: 35 },
});
