import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatProblem } from '../../harness/problems.ts';
import { checkRecord } from '../../harness/setup/check-record.ts';
import { listFields } from '../../harness/setup/list-fields.ts';
import { nearestName } from '../../harness/setup/nearest-name.ts';
import { setupRules } from '../../harness/setup/setup-rules.ts';
import { setupSchema } from '../../harness/setup/setup-schema.ts';
import { surfaceRules } from '../../harness/setup/surface-rules.ts';
import { surfaceSchema } from '../../harness/setup/surface-schema.ts';
import { vehicleRules } from '../../harness/setup/vehicle-rules.ts';
import { vehicleSchema } from '../../harness/setup/vehicle-schema.ts';
import { changed, SAMPLES } from './samples.ts';

const SETUP = { name: 'a', surface: 'b' };

function setupMessages(value: unknown): string[] {
  const place = { file: 's.ts', prefix: '' };
  return checkRecord(setupSchema, setupRules, value, place).problems.map(formatProblem);
}

function vehicleMessages(changes: Record<string, unknown>): string[] {
  const place = { file: 'v.ts', prefix: '' };
  const value = changed(SAMPLES.hatch, changes);
  return checkRecord(vehicleSchema, vehicleRules, value, place).problems.map(formatProblem);
}

describe('what each kind of mistake gets, word for word', () => {
  test.each<[string, unknown, string[]]>([
    [
      'too large',
      { ...SETUP, split: { cutCurve: 7 } },
      [
        's.ts: split.cutCurve: found 7, expected 0.5 to 4 (exponent). Lower it to 4 or less. ' +
          'Left out, it is 1.',
      ],
    ],
    [
      'too small',
      { ...SETUP, throttle: { deadBandPercent: 0.5 } },
      [
        's.ts: throttle.deadBandPercent: found 0.5, expected 1 to 30 (%). ' +
          'Raise it to 1 or more. Left out, it is 5.',
      ],
    ],
    [
      'another unit',
      { ...SETUP, throttle: { deadBandPercent: 0.05 } },
      [
        's.ts: throttle.deadBandPercent: found 0.05, expected 1 to 30 (%). ' +
          'If you meant a share of 1, write 5. Left out, it is 5.',
      ],
    ],
    [
      'a number in quotes',
      { ...SETUP, fadeMs: '250' },
      [
        's.ts: fadeMs: found "250", expected 0 to 10000 (ms). Write 250 without quotes. ' +
          'Left out, it is 500.',
      ],
    ],
    [
      'not a number',
      { ...SETUP, fadeMs: Number.NaN, link: { holdMs: null } },
      [
        's.ts: link.holdMs: found null, expected 0 to 1000 (ms). Write a number. Left out, ' +
          'it is 300.',
        's.ts: fadeMs: found NaN, expected 0 to 10000 (ms). Write a number. Left out, it is 500.',
      ],
    ],
    [
      'neither the word nor a number',
      { ...SETUP, link: { steeringOnLoss: 'hodl' } },
      [
        's.ts: link.steeringOnLoss: found "hodl", expected "hold" or -100 to 100 (%). ' +
          'Did you mean "hold"? Left out, it is "hold".',
      ],
    ],
    [
      'a number outside the range beside a word',
      { ...SETUP, link: { steeringOnLoss: 120 } },
      [
        's.ts: link.steeringOnLoss: found 120, expected "hold" or -100 to 100 (%). ' +
          'Lower it to 100 or less. Left out, it is "hold".',
      ],
    ],
    [
      'a missing field and an empty text',
      { name: '' },
      [
        's.ts: name: found "", expected a text of 1 to 40 characters. ' +
          'Write 1 to 40 characters on one line.',
        's.ts: surface: missing, expected a text of 1 to 40 characters. ' +
          'Add it: Name of the surface it is meant for; one of surfaces.ts.',
      ],
    ],
    [
      'an unknown field with a near name',
      { ...SETUP, split: { cutCurv: 2 } },
      ['s.ts: split.cutCurv: unknown field. Did you mean "split.cutCurve"?'],
    ],
    [
      'an unknown field without its unit',
      { ...SETUP, slew: { rise: 200 } },
      ['s.ts: slew.rise: unknown field. Did you mean "slew.risePercentPerS"?'],
    ],
    [
      'a field that belongs into a group',
      { ...SETUP, holdMs: 100 },
      ['s.ts: holdMs: unknown field. Did you mean "link.holdMs"?'],
    ],
    [
      'an unknown field like no other',
      { ...SETUP, guest: { sparkles: true } },
      ['s.ts: guest.sparkles: unknown field. Known fields here: capPercent.'],
    ],
    [
      'a value where a group belongs, and a list',
      { ...SETUP, guest: 40, arming: [500, 2000] },
      [
        's.ts: arming: found a list, expected a group of fields. Write { neutralMs, rearmMs }.',
        's.ts: guest: found 40, expected a group of fields. Write { capPercent }.',
      ],
    ],
    [
      'no record at all',
      7,
      [
        's.ts: default export: found 7, expected a group of fields. Write { name, surface, ' +
          'throttle, steering, link, arming, split, yawAssist, slew, traction, guest, fadeMs }.',
      ],
    ],
  ])('setup: %s', (_, value, messages) => {
    expect(setupMessages(value)).toEqual(messages);
  });

  test.each<[string, Record<string, unknown>, string[]]>([
    [
      'a word that is none of the list',
      { layout: 'pairs' },
      [
        'v.ts: layout: found "pairs", expected "single" or "pair" or "twoPairs" or "tracked". ' +
          'Did you mean "pair"?',
      ],
    ],
    [
      'a flag in quotes',
      { 'sensors.gyro': 'yes' },
      [
        'v.ts: sensors.gyro: found "yes", expected true or false. ' +
          'Write true or false, without quotes. Left out, it is false.',
      ],
    ],
    [
      'part of a tick',
      { tickMs: 10.5 },
      [
        'v.ts: tickMs: found 10.5, expected 1 to 100 (ms), a whole number. Round it. ' +
          'Left out, it is 10.',
      ],
    ],
    [
      'metres instead of millimetres',
      { wheelbaseMm: 0.212 },
      ['v.ts: wheelbaseMm: found 0.212, expected 30 to 3000 (mm). If you meant m, write 212.'],
    ],
    [
      'an unknown kind',
      { 'motor.heat': { kind: 'i2' } },
      [
        'v.ts: motor.heat.kind: found "i2", expected "twoBody" or "i2t" or "none". ' +
          'Did you mean "i2t"?',
      ],
    ],
    [
      'no kind',
      { 'motor.heat': {} },
      [
        'v.ts: motor.heat.kind: missing, expected "twoBody" or "i2t" or "none". ' +
          'Add it: which kind it is.',
      ],
    ],
    [
      'a field of another kind',
      { 'motor.heat': { kind: 'i2t', timeConstantS: 30, windingJPerK: 3 } },
      [
        'v.ts: motor.heat.windingJPerK: unknown field. It belongs to another kind. ' +
          'Known fields here: kind, timeConstantS.',
      ],
    ],
    [
      'a list where a group is required',
      { battery: [8.4, 0.06] },
      [
        'v.ts: battery: found a list, expected a group of fields. Write { openCircuitV, ' +
          'internalResistanceOhm, referenceV, warnV, lowV, cutV, hysteresisV, cutTimeMs, ' +
          'floorPercent }.',
      ],
    ],
    [
      'no heat model where one must be chosen',
      { 'motor.heat': undefined },
      [
        'v.ts: motor.heat: missing, expected a group of fields. ' +
          'Write { kind: "twoBody" or "i2t" or "none", ... }.',
      ],
    ],
  ])('vehicle: %s', (_, changes, messages) => {
    expect(vehicleMessages(changes)).toEqual(messages);
  });
});

describe('the nearest name', () => {
  const known = ['holdMs', 'steeringOnLoss', 'cutAtFullLockPercent'];

  test.each([
    ['holdMS', 'holdMs'],
    ['hodlMs', 'holdMs'],
    ['hold', 'holdMs'],
    ['steeringAtLoss', 'steeringOnLoss'],
    ['cutAtLockPercent', 'cutAtFullLockPercent'],
    ['sparkles', undefined],
    ['h', undefined],
    ['', undefined],
  ])('%s: %s', (name, near) => {
    expect(nearestName(name, known)).toBe(near);
  });

  test('of nothing is nothing', () => {
    expect(nearestName('holdMs', [])).toBeUndefined();
  });
});

test('all problems of a record are told at once', () => {
  const problems = vehicleMessages({
    layout: 'trike',
    tickMs: 0,
    massKg: -1,
    wheelbase: 212,
    'motor.gearRatio': 0,
    'battery.lowV': 9,
    cgToFrontAxleMm: 400,
  });
  expect(problems.map((problem) => problem.split(':')[1]?.trim())).toEqual([
    'wheelbase',
    'layout',
    'tickMs',
    'massKg',
    'motor.gearRatio',
    'battery.lowV',
    'cgToFrontAxleMm',
  ]);
});

test('a yaw inertia in kg mm² is told as that', () => {
  const place = { file: 'v.ts', prefix: '' };
  const value = changed(SAMPLES.hatch, { yawInertiaKgM2: 12000 });
  const { problems } = checkRecord(vehicleSchema, vehicleRules, value, place);
  expect(problems.map(({ cure }) => cure)).toEqual(['If you meant kg mm², write 0.012.']);
});

test('a surface outside its own range of friction is refused', () => {
  const surface = { name: 'a', source: 'b', friction: 0.9, frictionLow: 0.5, frictionHigh: 0.8 };
  const place = { file: 'f.ts', prefix: 'surface "a"' };
  const { problems } = checkRecord(surfaceSchema, surfaceRules, surface, place);
  expect(problems.map(formatProblem)).toEqual([
    'f.ts: surface "a", friction: found 0.9, expected frictionLow to frictionHigh, 0.5 to 0.8. ' +
      'Widen the range or move friction into it.',
  ]);
});

describe('whatever a file exports, the check answers and never throws', () => {
  const schemas = [
    { schema: vehicleSchema, rules: vehicleRules, start: SAMPLES.hatch, record: 'vehicle' },
    { schema: setupSchema, rules: setupRules, start: SETUP, record: 'setup' },
  ] as const;

  test.each(schemas)('$record', ({ schema, rules, start, record }) => {
    const paths = listFields()
      .filter((field) => field.record === record)
      .flatMap(({ path }) => path.split('.').map((_, i, all) => all.slice(0, i + 1).join('.')));
    const change = fc.tuple(fc.constantFrom(...paths), fc.anything());
    const values = fc.oneof(
      fc.anything(),
      fc.array(change, { maxLength: 4 }).map((list) => changed(start, Object.fromEntries(list))),
    );
    fc.assert(
      fc.property(values, (value) => {
        const checked = checkRecord<unknown>(schema, rules as readonly never[], value, {
          file: 'x.ts',
          prefix: '',
        });
        expect(checked.record === undefined).toBe(checked.problems.length > 0);
        for (const problem of checked.problems) {
          expect(problem.file).toBe('x.ts');
          expect(problem.field).not.toBe('');
          expect(problem.message).toMatch(/[.]$/);
          expect(problem.cure).toMatch(/[.?]$/);
        }
      }),
      { seed: 20261125, numRuns: 1500 },
    );
  });
});
