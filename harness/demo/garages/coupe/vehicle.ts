// Sorrel, a 1:14 rear-drive coupe of the Quillhaven Hall Model Motor Circle, a club that exists
// only in these files. The plainest hub that works: no current sensors, no gyro. See the hatch for
// how each number is measured, and "axlewright fields" for what it means.
import { defineVehicle } from 'axlewright';

export default defineVehicle({
  name: 'Sorrel coupe',
  scale: 14,

  // A motor for each rear wheel; the front wheels only steer.
  layout: 'pair',
  frontDrive: 'none',
  // This hub is slow: 20 ms between ticks.
  tickMs: 20,
  gapMs: 100,

  // 980 g, 54 % of it on the rear axle: 186 mm x 0.54 = 100 mm.
  massKg: 0.98,
  wheelbaseMm: 186,
  trackMm: 112,
  cgToFrontAxleMm: 100,
  cgHeightMm: 30,
  // Mass x wheelbase squared / 5.
  yawInertiaKgM2: 0.0068,
  wheelRadiusMm: 23.5,
  steeringLockDeg: 28,

  // Read off the receiver: this one does not quite centre at 1500.
  receiver: {
    throttle: { lowUs: 1020, centreUs: 1510, highUs: 1990 },
    steering: { lowUs: 1050, centreUs: 1495, highUs: 1950 },
  },

  motor: {
    resistanceOhm: 1.6,
    nominalVoltageV: 7.2,
    noLoadSpeedRpm: 12500,
    noLoadCurrentMa: 180,
    // 12500 / 7.5 = 1667 rpm at the wheel, with a radius of 23.5 mm at most 4.1 m/s.
    gearRatio: 7.5,
    gearEfficiencyPercent: 88,
    continuousCurrentMa: 1100,
    // Without current sensors the core can hold no current down and see no stall or heat: the
    // bridges' own fuse has to. The heat model is here for the simulation, and for the day sensors
    // are fitted; then the stall time goes to 500.
    stallTimeMs: 0,
    heat: { kind: 'i2t', timeConstantS: 25 },
  },

  battery: {
    openCircuitV: 8.4,
    internalResistanceOhm: 0.09,
    referenceV: 7.4,
    warnV: 7.0,
    lowV: 6.6,
    cutV: 6.2,
  },

  sensors: { supply: true },
  limits: { blindCapPercent: 50, riseCeilingPercentPerS: 400, dwellMs: 60, speedLagMs: 450 },
});
