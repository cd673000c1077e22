import { describe, expect, test } from 'vitest';
import { describePlant } from '../../harness/plant/describe-plant.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { SURFACES } from '../../harness/plant/surfaces.ts';
import { checkRecord } from '../../harness/setup/check-record.ts';
import { type FieldDoc, listFields } from '../../harness/setup/list-fields.ts';
import { surfaceSchema } from '../../harness/setup/surface-schema.ts';
import { changed, SAMPLES, valueAt, vehicleOf } from '../setup/samples.ts';

const surface = checkRecord(surfaceSchema, [], SURFACES[0], { file: '', prefix: '' }).record!;

const hatch = vehicleOf(
  changed(SAMPLES.hatch, {
    'plant.battery.slowResistanceOhm': 0.05,
    'plant.battery.capacityMah': 1500,
    'plant.wheelInertiaGCm2': 200,
  }),
);
const single = vehicleOf(changed(SAMPLES.hatch, { layout: 'single', frontDrive: 'none' }));
const withWheelSpeeds = vehicleOf(changed(SAMPLES.hatch, { 'sensors.wheelSpeed': true }));
const oneBody = vehicleOf(
  changed(SAMPLES.hatch, { 'motor.heat': { kind: 'i2t', timeConstantS: 30 } }),
);

/** Fields that only the core, or nobody but the reader, needs. */
const NOT_PHYSICAL = [
  /^(scale|tickMs|gapMs|receiver\..*|limits\..*)$/,
  /^battery\.(referenceV|warnV|lowV|cutV|hysteresisV|cutTimeMs|floorPercent)$/,
  /^motor\.(currentLimitMa|stallTimeMs|stallSharePercent|startWindingC)$/,
  /^(motor\.modelErrorPercent|sensors\.currentErrorMa)$/,
];

const vehicleFields = listFields().filter(
  ({ record, path }) => record === 'vehicle' && path !== 'motor.heat.kind',
);

describe.each(vehicleFields)('$path', (field) => {
  test('reaches the simulated car, if it is one of its own', () => {
    const reaches = [hatch, single, oneBody, withWheelSpeeds].some((vehicle) => {
      const value = valueAt(vehicle, field.path);
      if (value === undefined) return false;
      const other = changed(vehicle, { [field.path]: nudged(field, value) });
      return (
        JSON.stringify(describePlant(other, surface)) !==
        JSON.stringify(describePlant(vehicle, surface))
      );
    });
    expect(reaches).toBe(!NOT_PHYSICAL.some((pattern) => pattern.test(field.path)));
  });
});

describe.each(listFields().filter(({ record }) => record === 'surface'))('$path', (field) => {
  test('reaches the ground, unless it is a note', () => {
    const other = changed(surface, { [field.path]: nudged(field, valueAt(surface, field.path)) });
    const reaches =
      JSON.stringify(describePlant(hatch, other)) !== JSON.stringify(describePlant(hatch, surface));
    expect(reaches).toBe(!['source', 'frictionLow', 'frictionHigh'].includes(field.path));
  });
});

test('a motor runs at its no-load speed and current, as its data sheet says', () => {
  const bench = {
    ...describePlant(
      vehicleOf(
        changed(SAMPLES.hatch, { 'battery.openCircuitV': 7.2, 'motor.gearEfficiencyPercent': 100 }),
      ),
      surface,
    ),
    gravity: 0,
  };
  const plant = createPlant({ ...bench, battery: { ...bench.battery, resistance: 0 } });
  plant.setFaults([{ kind: 'slippedPinion', motor: 0 }]);
  for (let i = 0; i < 1000; i++) plant.step([1000, 1000], 1, 0, 1e-3);
  // Within 0.5 %: the winding is a little warmer than it was measured.
  expect((plant.state.speeds[4]! * 60) / (2 * Math.PI) / 15_000).toBeCloseTo(1, 2);
  expect(plant.state.current[0]).toBeCloseTo(0.25, 2);
});

/** Another value of the same field. */
function nudged({ kind, min = 0, max = 1, choices = [] }: FieldDoc, value: unknown): unknown {
  if (kind === 'text') return `${value}x`;
  if (kind === 'flag') return value !== true;
  if (kind === 'choice') return choices.find((word) => word !== value);
  const way = (max - min) / 100;
  return Number(value) + way <= max ? Number(value) + way : Number(value) - way;
}
