// The car of this garage: Pipit, a 1:12 rally hatch of the Quillhaven Hall Model Motor Circle, a
// club that exists only in these files. Put your own car's numbers in its place.
//
// Each field's unit is the last part of its name. "axlewright fields" prints what every field
// means, its range and what a wrong value costs; so does your editor if the axlewright package is
// installed in this folder or above it. To load the file, nothing needs to be installed here.
import { defineVehicle } from 'axlewright';

export default defineVehicle({
  name: 'Pipit rally hatch',
  scale: 12,

  // A motor for each rear wheel. The front axle hangs on both through a differential, so the front
  // wheels get the mean of the two sides: the front pulls, but only the rear can be split.
  layout: 'pair',
  frontDrive: 'averaged',

  // How often the hub calls the core, and how late a call may be before the core stops the car.
  tickMs: 10,
  gapMs: 60,

  // On kitchen scales: the whole car 1350 g; front axle alone 567 g, rear axle alone 783 g. So the
  // centre of gravity lies 212 mm x 783 / 1350 = 123 mm behind the front axle.
  massKg: 1.35,
  wheelbaseMm: 212,
  trackMm: 125,
  cgToFrontAxleMm: 123,
  // Hang the car by one corner, then by another: the plumb lines cross in the centre of gravity.
  cgHeightMm: 38,
  // Not measured: mass x wheelbase squared / 5 = 1.35 x 0.212 x 0.212 / 5.
  yawInertiaKgM2: 0.012,
  // From ten turns of the wheel along a tape measure: 1634 mm, over 20 pi.
  wheelRadiusMm: 26,
  // Mean of both front wheels at full lock, off a protractor.
  steeringLockDeg: 25,

  receiver: {
    throttle: { lowUs: 1000, centreUs: 1500, highUs: 2000 },
    // The club's transmitter gives the shorter pulse to the left.
    steering: { lowUs: 1000, centreUs: 1500, highUs: 2000, reversed: true },
  },

  motor: {
    // Shaft held, 1 A from a bench supply, 0.9 V at the terminals of the bridge.
    resistanceOhm: 0.9,
    // Nothing coupled, 7.2 V from the same supply, speed by an optical counter.
    nominalVoltageV: 7.2,
    noLoadSpeedRpm: 15000,
    noLoadCurrentMa: 250,
    // 15000 / 9 = 1667 rpm at the wheel, with a radius of 26 mm at most 4.5 m/s.
    gearRatio: 9,
    gearEfficiencyPercent: 85,
    continuousCurrentMa: 1800,
    // Two motors at their ceiling draw 12 A; the pack bears 15 A.
    currentLimitMa: 6000,
    // A stop with locked wheels from 4.5 m/s takes 0.76 s where friction is 0.6, on the stall line.
    stallTimeMs: 800,
    maxWindingC: 120,
    ambientC: 25,
    startWindingC: 40,
    // 8 g of copper, 35 g of steel. The housing sits in the chassis and sheds heat into it.
    heat: {
      kind: 'twoBody',
      windingJPerK: 3,
      windingToHousingWPerK: 0.15,
      housingJPerK: 16,
      housingToAmbientWPerK: 0.08,
    },
  },

  // Two lithium cells in series: 8.4 V fresh from the charger; under load they may go down to 3.1 V
  // each, no further.
  battery: {
    openCircuitV: 8.4,
    internalResistanceOhm: 0.06,
    // Full throttle means 7.4 V whether the pack is fresh or half used.
    referenceV: 7.4,
    warnV: 7.0,
    lowV: 6.6,
    cutV: 6.2,
  },

  sensors: { supply: true, current: true, gyro: true },

  // These hold whatever a setup says, and whatever goes wrong before the last stage.
  limits: {
    blindCapPercent: 40,
    riseCeilingPercentPerS: 500,
    dwellMs: 50,
    speedLagMs: 350,
  },
});
