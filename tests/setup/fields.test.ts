import { describe, expect, test } from 'vitest';
import { checkRecord } from '../../harness/setup/check-record.ts';
import { describeField, formatFields } from '../../harness/setup/describe-field.ts';
import { type FieldDoc, listFields } from '../../harness/setup/list-fields.ts';
import { surfaceSchema } from '../../harness/setup/surface-schema.ts';
import { changed, SAMPLES, setupOf, valueAt, vehicleOf } from './samples.ts';

const fields = listFields();

/** Last part of a field's name for each unit; a plain ratio, a scale, an exponent have none. */
const UNIT_NAMES: Record<string, string> = {
  mm: 'Mm',
  kg: 'Kg',
  'kg m²': 'KgM2',
  ms: 'Ms',
  s: 'S',
  us: 'Us',
  ohm: 'Ohm',
  rpm: 'Rpm',
  V: 'V',
  mA: 'Ma',
  '%': 'Percent',
  '%/s': 'PercentPerS',
  'J/K': 'JPerK',
  'W/K': 'WPerK',
  '°C': 'C',
  deg: 'Deg',
  'deg/s': 'DegPerS',
  'g cm²': 'GCm2',
  'cm²': 'Cm2',
  uH: 'Uh',
  mAh: 'Mah',
  mV: 'Mv',
  'mrad/s': 'MradPerS',
  '1/h': 'PerHour',
  '%/deg': 'PercentPerDeg',
  '%/(deg/s)': 'PercentPerDegPerS',
  'deg/g': 'DegPerG',
  g: 'G',
};
const UNITLESS = ['1', '1:n', 'exponent'];
/** The one number whose word "hold" keeps a unit out of its name. */
const NAMED_OTHERWISE = ['link.steeringOnLoss'];

test('there are fields of all three records, each path once', () => {
  const paths = fields.map((field) => `${field.record}.${field.path}`);
  expect(new Set(fields.map((field) => field.record)).size).toBe(3);
  expect(new Set(paths).size).toBe(paths.length);
  expect(paths).toContain('vehicle.motor.heat.timeConstantS');
  expect(paths).toContain('setup.split.cutCurve');
});

describe.each(fields)('$record $path', (field) => {
  test('says what it means and what a wrong value costs', () => {
    expect(field.meaning).toMatch(/\S.*[.]$/s);
    expect(field.wrong).toMatch(/\S.*[.]$/s);
  });

  test('has a range and a unit that its name ends in, or the words it takes', () => {
    if (field.kind === 'number') {
      expect(field.min).toBeLessThan(field.max ?? Number.NaN);
      if (UNITLESS.includes(field.unit) || NAMED_OTHERWISE.includes(field.path)) return;
      expect(field.path.endsWith(UNIT_NAMES[field.unit] ?? 'no known unit')).toBe(true);
    } else if (field.kind === 'choice') expect(field.choices?.length).toBeGreaterThan(0);
    else expect(['text', 'flag']).toContain(field.kind);
  });

  test('says what 0 means if 0 is in its range, and only then', () => {
    const holdsZero = field.kind !== 'text' && (field.min ?? 1) <= 0 && (field.max ?? -1) >= 0;
    expect(field.zero !== undefined).toBe(holdsZero);
  });

  test('has a default inside its own range, or is required', () => {
    expect(field.required).toBe(field.fallback === undefined);
    if (typeof field.fallback === 'number') {
      expect(field.fallback).toBeGreaterThanOrEqual(field.min ?? Number.NaN);
      expect(field.fallback).toBeLessThanOrEqual(field.max ?? Number.NaN);
    }
  });
});

describe('the default in the reference is the default that is applied', () => {
  const optional = fields.filter((field) => !field.required);

  test.each(optional.filter((field) => field.record === 'vehicle'))('vehicle $path', (field) => {
    // Thresholds below need the sensor and each other; they are left out together.
    const battery = { openCircuitV: 8.4, internalResistanceOhm: 0.06 };
    const bare = changed(SAMPLES.hatch, {
      battery,
      sensors: undefined,
      limits: undefined,
      receiver: undefined,
      'motor.currentLimitMa': undefined,
    });
    expect(valueAt(vehicleOf(changed(bare, { [field.path]: undefined })), field.path)).toBe(
      field.fallback,
    );
  });

  test.each(optional.filter((field) => field.record === 'setup'))('setup $path', (field) => {
    expect(valueAt(setupOf({ name: 'a', surface: 'b' }), field.path)).toBe(field.fallback);
  });

  test.each(optional.filter((field) => field.record === 'surface'))('surface $path', (field) => {
    const bare = { name: 'a', source: 'b', friction: 0.6, frictionLow: 0.5, frictionHigh: 0.7 };
    const { record } = checkRecord(surfaceSchema, [], bare, { file: 'surfaces.ts', prefix: '' });
    expect(valueAt(record, field.path)).toBe(field.fallback);
  });
});

test('the reference of one field, word for word', () => {
  const holdMs = fields.find((field) => field.path === 'link.holdMs') as FieldDoc;
  expect(describeField(holdMs)).toEqual([
    'The last valid inputs are held this long; then a controlled stop begins.',
    '0 to 1000 (ms); default 300.',
    '0: The first missing frame begins the stop.',
    'If wrong: Too long: a lost car drives on that much further. ' +
      'Too short: stops at every small gap.',
  ]);
  expect(formatFields([holdMs])).toBe(
    `setup link: What happens when the signal is lost.\n\nsetup link.holdMs\n${describeField(holdMs)
      .map((line) => `  ${line}\n`)
      .join('')}`,
  );
});

test('a group is told before its first field, and what a field needs beside it', () => {
  const heat = fields.filter((field) => field.path.startsWith('motor.heat.'));
  const text = formatFields(heat);
  expect(text).toMatch(/^vehicle motor\.heat: One body that settles/m);
  expect(text.match(/Only with kind: "twoBody"\./g)).toHaveLength(4);
  expect(text.match(/Only with kind: "i2t"\./g)).toHaveLength(1);
  const free = formatFields(fields.filter((field) => field.path.startsWith('traction.free.')));
  expect(free.match(/^setup traction\.free: .*frontDrive is "averaged"/gm)).toHaveLength(1);
});
