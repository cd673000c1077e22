import { describe, expect, test } from 'vitest';
import { formatProblem, type Problem } from '../../harness/problems.ts';
import { checkPair } from '../../harness/setup/check-pair.ts';
import { checkRecord } from '../../harness/setup/check-record.ts';
import { listFields } from '../../harness/setup/list-fields.ts';
import { pairRules, setupRules } from '../../harness/setup/setup-rules.ts';
import { setupSchema } from '../../harness/setup/setup-schema.ts';
import { surfaceRules } from '../../harness/setup/surface-rules.ts';
import { vehicleRules } from '../../harness/setup/vehicle-rules.ts';
import { vehicleSchema } from '../../harness/setup/vehicle-schema.ts';
import { changed, SAMPLES, setupOf, vehicleOf } from './samples.ts';

type Changes = Record<string, unknown>;
const SETUP = { name: 'a', surface: 'b' };

function vehicleProblems(changes: Changes): Problem[] {
  const place = { file: 'v.ts', prefix: '' };
  return checkRecord(vehicleSchema, vehicleRules, changed(SAMPLES.hatch, changes), place).problems;
}

function setupProblems(changes: Changes): Problem[] {
  const place = { file: 's.ts', prefix: '' };
  return checkRecord(setupSchema, setupRules, changed(SETUP, changes), place).problems;
}

/** Changes that just keep a rule, changes that just break it, and what is said then. */
type Case = [rule: string, kept: Changes, broken: Changes, message: string];

const vehicleCases: Case[] = [
  [
    'throttle pulses rise by 100 us',
    { 'receiver.throttle': { lowUs: 1400, centreUs: 1500, highUs: 1600 } },
    { 'receiver.throttle': { lowUs: 1401, centreUs: 1500, highUs: 1600 } },
    'receiver.throttle.centreUs: found 1401, 1500, 1600 us for low, centre, high, expected ' +
      'rising pulses at least 100 us apart. Read the three pulses off the receiver; for a ' +
      'channel that runs the other way set reversed: true.',
  ],
  [
    'steering pulses rise by 100 us',
    { 'receiver.steering': { lowUs: 1000, centreUs: 1900, highUs: 2000 } },
    { 'receiver.steering': { lowUs: 2000, centreUs: 1500, highUs: 1000 } },
    'receiver.steering.centreUs: found 2000, 1500, 1000 us for low, centre, high, expected ' +
      'rising pulses at least 100 us apart. Read the three pulses off the receiver; for a ' +
      'channel that runs the other way set reversed: true.',
  ],
  [
    'derating begins below the charged pack',
    { 'battery.warnV': 8.39 },
    { 'battery.warnV': 8.4 },
    'battery.warnV: found 8.4 V, expected less than openCircuitV, 8.4 V. Lower warnV, or the ' +
      'drive is derated from the start.',
  ],
  [
    'low below warn',
    { 'battery.lowV': 6.999 },
    { 'battery.lowV': 7 },
    'battery.lowV: found 7 V, expected less than warnV, 7 V. Set warnV > lowV > cutV; with warnV ' +
      '0, lowV is 0 as well.',
  ],
  [
    'no cut-off without derating',
    { 'battery.lowV': 0, 'battery.cutV': 0 },
    { 'battery.lowV': 0 },
    'battery.cutV: found 6.2 V, expected less than lowV, 0 V. Set warnV > lowV > cutV; with lowV ' +
      '0, cutV is 0 as well.',
  ],
  [
    'thresholds need the supply sensor',
    { battery: { openCircuitV: 8.4, internalResistanceOhm: 0 }, 'sensors.supply': false },
    {
      battery: { openCircuitV: 8.4, internalResistanceOhm: 0, referenceV: 7.4 },
      'sensors.supply': false,
    },
    'battery.referenceV: found 7.4 V, but sensors.supply is false, expected 0, or a supply ' +
      'sensor that this limit can act on. Set sensors.supply to true if the hub measures the ' +
      'supply, else set this to 0.',
  ],
  [
    'a motor turns against less than its stall current',
    { 'motor.noLoadCurrentMa': 7999 },
    { 'motor.noLoadCurrentMa': 8000 },
    'motor.noLoadCurrentMa: found 8000 mA, expected less than nominalVoltageV / resistanceOhm, ' +
      '8000 mA. Measure the resistance with the shaft held, and the current with nothing coupled.',
  ],
  [
    'gear and wheel give a speed',
    { 'motor.gearRatio': 0.7 },
    { 'motor.gearRatio': 0.6 },
    'motor.gearRatio: found a no-load speed of 68.1 m/s, expected 0.02 to 60 m/s from ' +
      'noLoadSpeedRpm, gearRatio and wheelRadiusMm. gearRatio is turns of the motor for one turn ' +
      'of the wheel.',
  ],
  [
    'a current ceiling needs the sensors',
    { 'motor.currentLimitMa': 0, 'sensors.current': false },
    { 'sensors.current': false },
    'motor.currentLimitMa: found 6000 mA, but sensors.current is false, expected 0, or current ' +
      'sensors that this limit can act on. Set sensors.current to true if the hub measures the ' +
      'currents, else set this to 0.',
  ],
  [
    'a current ceiling lets stall current pass',
    { 'motor.currentLimitMa': 1800 },
    { 'motor.currentLimitMa': 1799 },
    'motor.currentLimitMa: found 1799 mA, expected 0, or at least continuousCurrentMa, 1800 mA. ' +
      'Raise it, or no stall is ever seen: below continuousCurrentMa none is looked for.',
  ],
  [
    'a winding may warm by 10 K',
    { 'motor.maxWindingC': 40, 'motor.ambientC': 30, 'motor.startWindingC': 30 },
    { 'motor.maxWindingC': 40, 'motor.ambientC': 31, 'motor.startWindingC': 31 },
    'motor.maxWindingC: found 40 °C, expected 10 to 300 K above ambientC, 31 °C. Set it from 41 ' +
      'to 300.',
  ],
  [
    'it is not derated from the start',
    { 'motor.startWindingC': 105 },
    { 'motor.startWindingC': 106 },
    'motor.startWindingC: found 106 °C, expected from ambientC, 25 °C, to below where derating ' +
      'begins, 106 °C. Set it between them; 15 K above ambientC suits a car that is used now and ' +
      'then.',
  ],
  [
    'an I2t model can be held in whole mW/K',
    { 'motor.heat': { kind: 'i2t', timeConstantS: 30 }, 'motor.continuousCurrentMa': 326 },
    { 'motor.heat': { kind: 'i2t', timeConstantS: 30 }, 'motor.continuousCurrentMa': 324 },
    'motor.heat: found a conductance of 0 mW/K and a capacity of 0 mJ/K, expected 1 to 1000000 ' +
      'mW/K and at most 10000000 mJ/K. They follow from continuousCurrentMa² resistanceOhm / ' +
      '(maxWindingC - ambientC) and timeConstantS; mend the one that is out, or use kind ' +
      '"twoBody".',
  ],
  [
    'two bodies are slower than the longest tick',
    { 'motor.heat.windingJPerK': 0.02, gapMs: 53 },
    { 'motor.heat.windingJPerK': 0.02, gapMs: 54 },
    'motor.heat: found bodies that exchange their heat in 133 ms, expected more than gapMs + 80, ' +
      '134 ms. Raise windingJPerK and housingJPerK, or lower the conductances.',
  ],
  [
    'a gap is two ticks',
    { gapMs: 20 },
    { gapMs: 19 },
    'gapMs: found 19 ms, expected at least two ticks, 20 ms. Raise gapMs or lower tickMs; else ' +
      'one late tick counts as a loss of signal.',
  ],
  [
    'the gate counts to 100 ticks',
    { 'limits.dwellMs': 200, tickMs: 2 },
    { 'limits.dwellMs': 201, tickMs: 2 },
    'limits.dwellMs: found 201 ms, expected at most 100 ticks, 200 ms. Lower it to 200 or less.',
  ],
  [
    'the rise ceiling is one',
    { 'limits.riseCeilingPercentPerS': 5000 },
    { 'limits.riseCeilingPercentPerS': 5001 },
    'limits.riseCeilingPercentPerS: found 5001 %/s, expected at most 5000 %/s, full command in ' +
      'two ticks of 10 ms. Lower it to 5000 or less.',
  ],
  [
    'the centre of gravity lies between the axles',
    { cgToFrontAxleMm: 211 },
    { cgToFrontAxleMm: 212 },
    'cgToFrontAxleMm: found 212 mm, expected less than wheelbaseMm, 212 mm. The centre of ' +
      'gravity lies between the axles: wheelbase times rear axle load over weight.',
  ],
  [
    'the yaw inertia is that of a car',
    { yawInertiaKgM2: 0.00061 },
    { yawInertiaKgM2: 0.0006 },
    'yawInertiaKgM2: found 0.0006 kg m², a radius of gyration of 21.1 mm, expected a radius of ' +
      '21.2 to 424 mm for this wheelbase. If it was not measured, write 0.0121.',
  ],
  [
    'only a pair has an averaged front',
    { layout: 'twoPairs', frontDrive: 'none' },
    { layout: 'twoPairs' },
    'frontDrive: found "averaged" with layout "twoPairs", expected layout "pair" for a front ' +
      'axle driven by both sides of the rear. Set frontDrive to "none" or layout to "pair".',
  ],
  [
    'a pair drives one axle',
    { frontDrive: 'none', 'plant.drivenAxle': 'front' },
    { 'plant.drivenAxle': 'front' },
    'plant.drivenAxle: found "front" with layout "pair", frontDrive "averaged", expected "front" ' +
      'for a single motor or a pair without frontDrive, "all" for a single motor. Leave it out: ' +
      'the rear wheels are driven, and the front ones as frontDrive says.',
  ],
  [
    'only a single motor has a differential to lock',
    { layout: 'single', frontDrive: 'none', 'plant.differential': 'locked' },
    { 'plant.differential': 'locked' },
    'plant.differential: found "locked" with layout "pair", expected layout "single": with a ' +
      'motor for each wheel there is no differential to lock. Leave it out.',
  ],
  [
    'the front wheels of two pairs go round a bend',
    { layout: 'twoPairs', frontDrive: 'none', steeringLockDeg: 48 },
    { layout: 'twoPairs', frontDrive: 'none', steeringLockDeg: 50 },
    'steeringLockDeg: found 50 deg, a turn of radius 178 mm, expected a turn in which the inside ' +
      'front wheel rolls at most twice as far as the inside rear one. Lower it: measure the mean ' +
      'angle of both front wheels at full lock.',
  ],
  [
    'a turn lies beyond the inner front wheel',
    { trackMm: 300, steeringLockDeg: 51 },
    { trackMm: 300, steeringLockDeg: 52 },
    'steeringLockDeg: found 52 deg, a turn whose centre lies at the inner front wheel, expected ' +
      'less than 51.8 deg for this wheelbase and track. Lower it: measure the mean angle of both ' +
      'front wheels at full lock.',
  ],
];

const setupCases: Case[] = [
  [
    're-arming is no quicker than arming',
    { 'arming.neutralMs': 2000 },
    { 'arming.neutralMs': 2001 },
    'arming.rearmMs: found 2000 ms, expected at least neutralMs, 2001 ms. After a fault arming ' +
      'must not be quicker than before one.',
  ],
  [
    'a stop is no slower than lifting off',
    { 'slew.fallPercentPerS': 1000 },
    { 'slew.fallPercentPerS': 1001 },
    'slew.stopPercentPerS: found 1000 %/s, expected at least fallPercentPerS, 1001 %/s. A ' +
      'controlled stop must not be slower than an eased throttle.',
  ],
  [
    'steering on loss stays inside the end limits',
    { 'link.steeringOnLoss': -80, 'steering.rightLimitPercent': 80 },
    { 'link.steeringOnLoss': -81, 'steering.rightLimitPercent': 80 },
    'link.steeringOnLoss: found -81 %, expected -80 to 100 %, the end limits of the steering. ' +
      'Lower it in magnitude, or write "hold" or 0.',
  ],
];

describe('a rule holds at its limit, and says so just past it', () => {
  test.each(vehicleCases)('vehicle: %s', (_, kept, broken, message) => {
    expect(vehicleProblems(kept)).toEqual([]);
    expect(vehicleProblems(broken).map(formatProblem)).toEqual([`v.ts: ${message}`]);
  });

  test.each(setupCases)('setup: %s', (_, kept, broken, message) => {
    expect(setupProblems(kept)).toEqual([]);
    expect(setupProblems(broken).map(formatProblem)).toEqual([`s.ts: ${message}`]);
  });

  test.each<[string, Changes, Changes, string]>([
    [
      'pivot needs tracks',
      { 'split.pivotPercent': 0 },
      { 'split.pivotPercent': 10 },
      'split.pivotPercent: found 10 %, but the vehicle\'s layout is "pair", expected 0 unless ' +
        'the layout is "tracked". Remove it: a wheeled car does not turn on the spot.',
    ],
    [
      'a front share needs front motors',
      { 'split.frontSharePercent': 100 },
      { 'split.frontSharePercent': 90 },
      'split.frontSharePercent: found 90 %, but the vehicle\'s layout is "pair", expected 100 ' +
        'unless the layout is "twoPairs". Remove it: there are no front motors to share with.',
    ],
    [
      'the gate lets the rise pass',
      { 'slew.risePercentPerS': 500 },
      { 'slew.risePercentPerS': 501 },
      "slew.risePercentPerS: found 501 %/s, expected at most the vehicle's " +
        'limits.riseCeilingPercentPerS, 500 %/s. Lower it to 500 or less.',
    ],
    [
      'a setup rests as long as the gate',
      { 'slew.dwellMs': 50 },
      { 'slew.dwellMs': 49 },
      "slew.dwellMs: found 49 ms, expected at least the vehicle's limits.dwellMs, 50 ms. " +
        'Raise it to 50 or more.',
    ],
  ])('setup on a vehicle: %s', (_, kept, broken, message) => {
    const vehicle = vehicleOf(SAMPLES.hatch);
    expect(checkPair(vehicle, setupOf(changed(SETUP, kept)))).toEqual([]);
    const problems = checkPair(vehicle, setupOf(changed(SETUP, broken)));
    expect(problems.map(formatProblem)).toEqual([`setups/a.ts: ${message}`]);
  });
});

test('yaw assist is refused without a gyro, and where no axle is split', () => {
  const sheet = setupOf(changed(SETUP, { 'yawAssist.authorityPercent': 30 }));
  const refusal = (vehicle: object, changes: Changes): string[] =>
    checkPair(vehicleOf(changed(vehicle, changes)), sheet).map(formatProblem);
  const said = (lack: string, cure: string): string[] => [
    `setups/a.ts: yawAssist.authorityPercent: found 30 %, but the vehicle ${lack}, expected 0 ` +
      `unless the vehicle has sensors.gyro and the layout "pair" or "twoPairs". ${cure}`,
  ];
  expect(refusal(SAMPLES.hatch, {})).toEqual([]);
  expect(refusal(SAMPLES.hatch, { 'sensors.gyro': false })).toEqual(
    said('has no sensors.gyro', 'Write 0, or fit a gyro and say so in vehicle.ts.'),
  );
  expect(refusal(SAMPLES.forwarder, { 'sensors.gyro': true })).toEqual(
    said(
      'has the layout "tracked"',
      'Write 0: it works by sharing power between the wheels of an axle.',
    ),
  );
});

test('every field that a rule names exists', () => {
  const known = (record: string): string[] =>
    listFields()
      .filter((field) => field.record === record)
      .map((field) => field.path);
  const named = [
    ...vehicleRules.map((rule) => ({ rule, record: 'vehicle' })),
    ...setupRules.map((rule) => ({ rule, record: 'setup' })),
    ...pairRules.map((rule) => ({ rule, record: 'setup' })),
    ...surfaceRules.map((rule) => ({ rule, record: 'surface' })),
  ];
  for (const { rule, record } of named) {
    for (const field of rule.fields) {
      expect(known(record).some((path) => path === field || path.startsWith(`${field}.`))).toBe(
        true,
      );
    }
  }
});
