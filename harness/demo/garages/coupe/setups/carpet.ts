// Setup sheet for the club room's carpet. Simulated, the tail steps out at full lock with a forward
// limit of 90 %, and not with 70 %.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'carpet',
  surface: 'low-pile carpet',
  throttle: { expoPercent: 30, forwardLimitPercent: 70 },
  steering: { expoPercent: 35, atTopSpeedPercent: 55 },
  split: { geometrySharePercent: 60, cutCeilingPercent: 22 },
  slew: { risePercentPerS: 300, fallPercentPerS: 500 },
});
