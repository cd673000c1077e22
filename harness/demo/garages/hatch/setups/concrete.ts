// Setup sheet for the yard after rain. Friction changes from patch to patch, so everything is slow.
import { defineSetup } from 'axlewright';

export default defineSetup({
  name: 'concrete',
  surface: 'damp concrete',
  throttle: { expoPercent: 50, forwardLimitPercent: 70, reverseLimitPercent: 35, smoothingMs: 40 },
  steering: { expoPercent: 30, ratePercentPerS: 400, atTopSpeedPercent: 55 },
  split: { geometrySharePercent: 50, cutAtFullLockPercent: 1, cutCurve: 2, cutCeilingPercent: 15 },
  // From a dry patch onto a wet one in mid-bend is what the gyro is for.
  yawAssist: { authorityPercent: 25, gripG: 0.45 },
  slew: { risePercentPerS: 150, fallPercentPerS: 400 },
  guest: { capPercent: 30 },
  // The yard is large: a lost car may not roll on as long as in the hall.
  link: { holdMs: 200, steeringOnLoss: 'hold' },
});
