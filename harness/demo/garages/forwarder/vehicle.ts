// Dunnock, a 1:16 timber forwarder on tracks of the Quillhaven Hall Model Motor Circle, a club that
// exists only in these files. Slow and strong: here a jammed log matters more than a slide. See the
// hatch for how each number is measured, and "axlewright fields" for what it means.
import { defineVehicle } from 'axlewright';

export default defineVehicle({
  name: 'Dunnock forwarder',
  scale: 16,

  // A motor for each track. There is no steering servo: the split does all the steering.
  layout: 'tracked',
  tickMs: 10,
  gapMs: 60,

  massKg: 2.6,
  // For tracks: the length that lies on the ground, and the distance between their middles.
  wheelbaseMm: 190,
  trackMm: 150,
  // Empty; a load of logs moves it back.
  cgToFrontAxleMm: 92,
  cgHeightMm: 62,
  yawInertiaKgM2: 0.038,
  // Pitch radius of the drive sprocket.
  wheelRadiusMm: 22,
  // For tracks an angle that stands for the tightest bend on the move: 190 mm / tan(45) = 190 mm.
  steeringLockDeg: 45,

  motor: {
    resistanceOhm: 2.2,
    nominalVoltageV: 7.2,
    noLoadSpeedRpm: 9000,
    noLoadCurrentMa: 120,
    // 9000 / 48 = 188 rpm at the sprocket, 0.43 m/s: walking pace of a very small lumberjack.
    gearRatio: 48,
    gearEfficiencyPercent: 60,
    continuousCurrentMa: 900,
    // Stalled it would draw 3.3 A; this much lifts the loaded machine up a plank.
    currentLimitMa: 2500,
    stallTimeMs: 800,
    // It hides in a plastic hull on a summer day.
    maxWindingC: 110,
    ambientC: 35,
    startWindingC: 50,
    heat: { kind: 'i2t', timeConstantS: 40 },
  },

  battery: {
    openCircuitV: 8.4,
    internalResistanceOhm: 0.08,
    warnV: 6.9,
    lowV: 6.5,
    cutV: 6.2,
  },

  sensors: { supply: true, current: true },
  limits: { blindCapPercent: 50, riseCeilingPercentPerS: 300, dwellMs: 100, speedLagMs: 250 },
});
