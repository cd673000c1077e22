import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../harness/problems.ts';
import { bake } from '../../harness/setup/bake.ts';
import { constantsBytes, constantsHash } from '../../harness/setup/constants-hash.ts';
import { type FieldDoc, listFields } from '../../harness/setup/list-fields.ts';
import { S, STEER_HOLD, TABLE_POINTS, V } from '../../lib/constants.ts';
import { changed, SAMPLES, setupOf, valueAt, vehicleOf } from './samples.ts';

const SETUP = { name: 'a', surface: 'b' };
const hatch = vehicleOf(SAMPLES.hatch);
const forwarder = vehicleOf(SAMPLES.forwarder);
const fourMotors = vehicleOf(changed(SAMPLES.hatch, { layout: 'twoPairs', frontDrive: 'none' }));

/** Fields that describe the car or name things; the core drives without them. */
/** What turns with a motor takes part of its force. */
const BAKED_OF_PLANT = ['plant.motor.rotorInertiaGCm2', 'plant.wheelInertiaGCm2'];
const NOT_BAKED = {
  vehicle: [
    'name',
    'scale',
    'cgToFrontAxleMm',
    'cgHeightMm',
    'yawInertiaKgM2',
    'battery.internalResistanceOhm',
    ...listFields()
      .filter(
        ({ record, path }) =>
          record === 'vehicle' && path.startsWith('plant.') && !BAKED_OF_PLANT.includes(path),
      )
      .map(({ path }) => path),
  ],
  setup: ['name', 'surface'],
};

function vehicleWords(changes: Record<string, unknown>): number[] {
  const vehicle = vehicleOf(changed(SAMPLES.hatch, changes));
  return bake(vehicle, [setupOf({ ...SETUP, slew: { dwellMs: 200 } })]).vehicle;
}

function setupWords(changes: Record<string, unknown>): number[] {
  return bake(hatch, [setupOf(changed(SETUP, changes))]).setups[0] ?? [];
}

describe('what a number becomes', () => {
  test.each<[string, unknown, number, number]>([
    ['battery.referenceV', 7.41, V.SUPPLY_REFERENCE_MV, 7410],
    ['battery.openCircuitV', 8.35, V.SUPPLY_NOMINAL_MV, 8350],
    ['battery.floorPercent', 12.5, V.SUPPLY_FLOOR, 125],
    ['motor.resistanceOhm', 0.8765, V.MOTOR_MOHM, 877],
    ['motor.continuousCurrentMa', 1700, V.STALL_MIN_MA, 1700],
    ['motor.stallSharePercent', 75, V.STALL_SHARE, 750],
    ['motor.heat.housingToAmbientWPerK', 0.081, V.HOUSING_MW_K, 81],
    ['sensors.gyro', false, V.HAS_GYRO, 0],
    ['receiver.steering.reversed', true, V.STEER_REVERSED, 1],
    ['limits.speedLagMs', 420, V.SPEED_LAG_MS, 420],
    // Two ticks of 10 ms at 3330 permille/s are 66.6 permille; rounded up, and one more.
    ['limits.riseCeilingPercentPerS', 333, V.GATE_RISE, 68],
    // Whole ticks of 10 ms.
    ['limits.dwellMs', 59, V.GATE_DWELL, 5],
  ])('vehicle %s %s', (path, value, index, word) => {
    expect(vehicleWords({ [path]: value })[index]).toBe(word);
  });

  test.each<[string, unknown, number, number]>([
    ['throttle.deadBandPercent', 4.56, S.THROTTLE_DEAD_BAND, 46],
    ['steering.ratePercentPerS', 450, S.STEER_RATE, 4500],
    ['link.holdMs', 120.4, S.HOLD_MS, 120],
    ['link.steeringOnLoss', -12.5, S.LOSS_STEER, -125],
    ['link.steeringOnLoss', 'hold', S.LOSS_STEER, STEER_HOLD],
    ['slew.stopPercentPerS', 1200, S.STOP, 12000],
    ['guest.capPercent', 33.3, S.GUEST_CAP, 333],
  ])('setup %s %s', (path, value, index, word) => {
    expect(setupWords({ [path]: value })[index]).toBe(word);
  });

  test('every constant of a setup stands at its own index (worked by hand)', () => {
    const words = setupWords({
      throttle: {
        deadBandPercent: 1.1,
        expoPercent: 12,
        forwardLimitPercent: 93,
        reverseLimitPercent: 44,
        smoothingMs: 15,
      },
      steering: {
        deadBandPercent: 2.6,
        expoPercent: 27,
        leftLimitPercent: 88,
        rightLimitPercent: 79,
        smoothingMs: 31,
        ratePercentPerS: 321,
        atTopSpeedPercent: 61,
      },
      link: { holdMs: 213, steeringOnLoss: 14 },
      arming: { neutralMs: 614, rearmMs: 1715 },
      slew: { risePercentPerS: 216, fallPercentPerS: 417, stopPercentPerS: 918, dwellMs: 119 },
      split: {
        geometrySharePercent: 0,
        cutCeilingPercent: 22,
        meanSharePercent: 23,
        pivotFadePercent: 26,
      },
      yawAssist: {
        authorityPercent: 31,
        gainPercentPerDegPerS: 1.2,
        integralPercentPerDeg: 0.7,
        understeerDegPerG: 3,
        gripG: 0.44,
      },
      guest: { capPercent: 37 },
      fadeMs: 428,
      traction: {
        spin: { reaction: 'trim' },
        free: { reaction: 'limp' },
        jam: { reaction: 'stop' },
        trimPercent: 51.2,
        limpCapPercent: 33.3,
        rampMs: 777,
        holdMs: 222,
      },
    });
    expect(words.slice(0, S.CUT_TABLE)).toEqual([
      11, 120, 930, 440, 15, 26, 270, 880, 790, 31, 3210, 610, 213, 140, 614, 1715, 2160, 4170,
      9180, 119, 220, 230, 1000, 0, 260, 370, 428,
      // k and h: tests/setup/solve-cusum.test.ts; of a spin half of k, and h for that; with ticks
      // of 10 ms, not 20, 994 times 2 ^ 0.6 and 1463 times 2 ^ 0.15.
      2, 4, 5, 71, 1507, 60, 5262, 87, 1623, 222, 512, 333, 777, 310, 688, 401, 252, 4316,
    ]);
  });

  test('every constant of a vehicle stands at its own index (worked by hand)', () => {
    const words = vehicleWords({
      tickMs: 12,
      gapMs: 55,
      receiver: {
        throttle: { lowUs: 1001, centreUs: 1502, highUs: 2003, reversed: true },
        steering: { lowUs: 1004, centreUs: 1505, highUs: 2006 },
        marginUs: 87,
      },
      sensors: { supply: true, current: true },
      'battery.referenceV': 7.311,
      'battery.warnV': 7.012,
      'battery.lowV': 6.613,
      'battery.cutV': 6.214,
      'battery.hysteresisV': 0.215,
      'battery.cutTimeMs': 616,
      'battery.floorPercent': 31.7,
      'motor.stallSharePercent': 71.8,
      limits: {
        blindCapPercent: 41.9,
        riseCeilingPercentPerS: 310,
        dwellMs: 121,
        speedLagMs: 422,
      },
    });
    expect(words.slice(0, V.FRONT_INSIDE)).toEqual([
      2, 1, 2, 12, 55, 1001, 1502, 2003, 1, 1004, 1505, 2006, 0, 87, 1, 1, 0, 7311, 7012, 6613,
      6214, 215, 616, 317, 900, 6000, 718, 1800, 800, 3000, 150, 16000, 80, 3930, 81, 95, 15, 419,
      // 3100 permille/s in two ticks of 12 ms is 74.4; rounded up, and one more. 121 / 12 ticks.
      76, 10, 422, 8400,
      // 6.975 V over 15000 rpm, times 9 over 26 mm: 1.537 V over m/s; 85 % of it is drive force,
      // and 250 mA over 85 % turn motor and gear.
      0, 1537, 1307, 294, 1350, 397,
      // tan 25 deg: times 125 / 424 mm; over 212 mm. 8.4 V / 1.537; 2 pi 26 mm / 360.
      137, 2200, 5465, 60, 150, 454, 1,
      // Rotor 0.02 k²/R, times 81, and two wheels of m r²/40; over 26 mm squared.
      120,
    ]);
  });

  test('heat: two bodies as they are, copper 3930 ppm/K, derating from 85 % of the rise', () => {
    expect(vehicleWords({}).slice(V.WINDING_MJ_K, V.HEAT_START_K + 1)).toEqual([
      3000, 150, 16000, 80, 3930, 81, 95, 15,
    ]);
  });

  test('heat: at continuous current an I2t model settles at the allowed rise or just above', () => {
    const heat = { kind: 'i2t', timeConstantS: 30 };
    const words = vehicleWords({ 'motor.heat': heat });
    const conductance = words[V.WINDING_MW_K] ?? 0;
    // 1.8 A squared times 0.9 ohm, in mW, over the conductance in mW/K.
    const rise = 2916 / conductance;
    expect(rise).toBeGreaterThanOrEqual(95);
    expect(2916 / (conductance + 1)).toBeLessThan(95);
    expect((words[V.WINDING_MJ_K] ?? 0) / conductance).toBe(30);
    expect(words[V.HOUSING_MJ_K]).toBe(0);
    expect(words[V.COPPER_PPM_K]).toBe(0);
  });

  test('heat: none is a winding without capacity', () => {
    expect(vehicleWords({ 'motor.heat': { kind: 'none' } })[V.WINDING_MJ_K]).toBe(0);
  });

  test('the cut: geometry and curve add up point by point, the ceiling on top', () => {
    const words = setupWords({
      split: {
        geometrySharePercent: 50,
        cutAtFullLockPercent: 8,
        cutCurve: 2,
        cutCeilingPercent: 12,
      },
    });
    const table = words.slice(S.CUT_TABLE, S.CUT_TABLE + TABLE_POINTS);
    const expected = table.map((_, i) => {
      const share = i / 16;
      // g = 1 - (R - t/2) / (R + t/2) = t tan(angle) / (L + t/2 tan(angle)).
      const tangent = Math.tan((share * 25 * Math.PI) / 180);
      const g = (125 * tangent) / (212 + 62.5 * tangent);
      return Math.round(Math.min(0.5 * g + 0.08 * share * share, 0.12) * 10_000);
    });
    expect(table).toEqual(expected);
    expect(table[0]).toBe(0);
    expect(table[TABLE_POINTS - 1]).toBe(1200);
  });

  test('only two pairs have front tables that differ from 1', () => {
    expect(new Set(vehicleWords({}).slice(V.FRONT_INSIDE, V.COUNT))).toEqual(new Set([0]));
    const words = bake(fourMotors, [setupOf(SETUP)]).vehicle;
    expect(words[V.FRONT_INSIDE]).toBe(10_000);
    expect(words[V.FRONT_INSIDE + 16]).toBeGreaterThan(words[V.FRONT_OUTSIDE + 16] ?? 0);
    expect(words[V.FRONT_OUTSIDE + 16]).toBeGreaterThan(10_000);
  });
});

describe('the name of constants', () => {
  const sheet = setupOf(SETUP);

  test('the same input gives the same bytes, and another order of fields changes nothing', () => {
    const backwards = Object.fromEntries(Object.entries(SAMPLES.hatch).reverse());
    const once = bake(hatch, [sheet]);
    const again = bake(vehicleOf(backwards), [setupOf(SETUP)]);
    expect(constantsBytes(again).equals(constantsBytes(once))).toBe(true);
    expect(again.crc).toBe(once.crc);
  });

  test('is the first 16 digits of SHA-256 over 32-bit words, least significant byte first', () => {
    const constants = { vehicle: [1, -2], setups: [[65536], [3]], crc: 0 };
    const bytes = Buffer.from('01000000feffffff0000010003000000', 'hex');
    expect(constantsBytes(constants).equals(bytes)).toBe(true);
    expect(constantsHash(constants)).toBe(
      createHash('sha256').update(bytes).digest('hex').slice(0, 16),
    );
  });

  test('the CRC is that of the same bytes, by CRC-32 of IEEE 802.3 bit by bit', () => {
    const constants = bake(hatch, [sheet, setupOf({ ...SETUP, fadeMs: 100 })]);
    expect(constants.crc >>> 0).toBe(crc32(constantsBytes(constants)));
  });

  test('tells the order of setups apart', () => {
    const other = setupOf({ ...SETUP, fadeMs: 100 });
    expect(constantsHash(bake(hatch, [sheet, other]))).not.toBe(
      constantsHash(bake(hatch, [other, sheet])),
    );
  });

  const bases = [hatch, forwarder, fourMotors];
  const calm = setupOf({
    ...SETUP,
    slew: { risePercentPerS: 100, dwellMs: 300 },
    split: { cutCeilingPercent: 15, cutAtFullLockPercent: 5 },
  });
  const vehicleFields = listFields().filter(
    ({ record, path }) => record === 'vehicle' && path !== 'motor.heat.kind',
  );

  test('tells the kinds of heat model apart', () => {
    const kinds = [{ kind: 'none' }, { kind: 'i2t', timeConstantS: 30 }, hatch.motor.heat];
    const hashes = kinds.map((heat) =>
      constantsHash(bake(changed(hatch, { 'motor.heat': heat }), [calm])),
    );
    expect(new Set(hashes).size).toBe(kinds.length);
  });

  test.each(vehicleFields)(
    'vehicle $path: changes with the field if the core needs it, and only then',
    (field) => {
      const differs = bases
        .filter((base) => valueAt(base, field.path) !== undefined)
        .map((base) => {
          const next = changed(base, { [field.path]: nudged(field, valueAt(base, field.path)) });
          return constantsHash(bake(next, [calm])) !== constantsHash(bake(base, [calm]));
        });
      expect(differs.includes(true)).toBe(!NOT_BAKED.vehicle.includes(field.path));
    },
  );

  test.each(listFields().filter((field) => field.record === 'setup'))(
    'setup $path: changes with the field if the core needs it, and only then',
    (field) => {
      const next = changed(calm, { [field.path]: nudged(field, valueAt(calm, field.path)) });
      const differs = bases.map((vehicle) => {
        if (field.path === 'split.pivotPercent' && vehicle !== forwarder) return false;
        if (field.path === 'split.frontSharePercent' && vehicle !== fourMotors) return false;
        if (field.path === 'yawAssist.authorityPercent' && vehicle !== hatch) return false;
        return constantsHash(bake(vehicle, [next])) !== constantsHash(bake(vehicle, [calm]));
      });
      expect(differs.includes(true)).toBe(!NOT_BAKED.setup.includes(field.path));
    },
  );
});

describe('what is refused, word for word', () => {
  function messageOf(work: () => unknown): string {
    try {
      work();
    } catch (error) {
      expect(error).toBeInstanceOf(UserError);
      return String(error instanceof Error && error.message);
    }
    return '';
  }

  test('a value that would leave the core’s limits', () => {
    const heavy = changed(hatch, { 'motor.resistanceOhm': 101, 'limits.blindCapPercent': 101 });
    expect(messageOf(() => bake(heavy, [setupOf(SETUP)]))).toBe(
      [
        'vehicle.ts: motor.resistanceOhm: gives the core 101000, expected 1 to 100000. Change ' +
          'it, or a field it is reckoned with, until the value fits.',
        'vehicle.ts: limits.blindCapPercent: gives the core 1010, expected 0 to 1000. Change it, ' +
          'or a field it is reckoned with, until the value fits.',
      ].join('\n'),
    );
  });

  test('a value that is not a number', () => {
    const odd = changed(setupOf(SETUP), { 'slew.risePercentPerS': Number.NaN });
    expect(messageOf(() => bake(hatch, [odd]))).toContain(
      'setups/a.ts: slew.risePercentPerS: gives the core NaN, expected 50 to 100000.',
    );
  });

  test('no setup, too many, and one that does not fit the vehicle', () => {
    expect(messageOf(() => bake(hatch, []))).toBe(
      'vehicle.ts: found 0 setups to take on board, expected 1 to 16. Choose which setups to take.',
    );
    const many = Array.from({ length: 17 }, () => setupOf(SETUP));
    expect(messageOf(() => bake(hatch, many))).toContain('found 17 setups to take on board');
    expect(
      messageOf(() => bake(hatch, [setupOf({ ...SETUP, split: { pivotPercent: 5 } })])),
    ).toMatch(/^setups\/a.ts: split.pivotPercent: found 5 %/);
  });
});

/** Another value of the field, inside its range and far enough to survive rounding. */
function nudged(field: FieldDoc, value: unknown): unknown {
  const { min = 0, max = 0 } = field;
  if (typeof value === 'boolean') return !value;
  if (field.kind === 'text') return `${value}!`;
  if (typeof value === 'number') {
    const step = Math.max(Math.abs(value) / 5, (max - min) / 200);
    const next = value + step <= max ? value + step : value - step;
    return field.whole ? Math.round(next) : next;
  }
  const others = (field.choices ?? []).filter((word) => word !== value);
  return others[0] ?? max;
}

/** CRC-32 of IEEE 802.3, written from its definition. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
