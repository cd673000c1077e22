// Setup sheet for the club room's carpet: grip and drag, so more power. The tyres hold, so the
// split may follow the geometry more closely than on vinyl.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'carpet',
  surface: 'low-pile carpet',
  throttle: { expoPercent: 25, forwardLimitPercent: 100, reverseLimitPercent: 50 },
  // A car that grips can roll over: take steering away at speed.
  steering: { expoPercent: 40, atTopSpeedPercent: 45 },
  split: { geometrySharePercent: 80, cutCeilingPercent: 25 },
  // A worn patch of carpet bears 0.6 g: from there on the gyro takes the cut away again.
  yawAssist: { authorityPercent: 25, gripG: 0.6 },
  slew: { risePercentPerS: 350, fallPercentPerS: 600 },
  guest: { capPercent: 40 },
});
