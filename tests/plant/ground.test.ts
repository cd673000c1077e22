import { describe, expect, test } from 'vitest';
import { describePlant, describeSurface } from '../../harness/plant/describe-plant.ts';
import { evenGround, type Ground, splitGround } from '../../harness/plant/ground.ts';
import { createPlant } from '../../harness/plant/plant.ts';
import { VX, X, Y, YAW, YAW_RATE } from '../../harness/plant/state.ts';
import { SURFACES } from '../../harness/plant/surfaces.ts';
import { checkRecord } from '../../harness/setup/check-record.ts';
import { surfaceRules } from '../../harness/setup/surface-rules.ts';
import { surfaceSchema } from '../../harness/setup/surface-schema.ts';
import handbook from '../published/surfaces.json' with { type: 'json' };
import { SAMPLES, vehicleOf } from '../setup/samples.ts';
import { referenceCar } from './reference-car.ts';

const checked = SURFACES.map((surface) => {
  const place = { file: 'surfaces.ts', prefix: '' };
  const { record, problems } = checkRecord(surfaceSchema, surfaceRules, surface, place);
  expect(problems).toEqual([]);
  return record!;
});

describe('the floors', () => {
  test('are the five of the trade, each with its source', () => {
    expect(checked.map(({ name }) => name)).toEqual([
      'sports-hall vinyl',
      'low-pile carpet',
      'damp concrete',
      'dry asphalt',
      'dusty parquet',
    ]);
    for (const { source } of checked) expect(source).toMatch(/assum/i);
  });

  test.each([
    ['sports-hall vinyl', 'rubber / vinyl or linoleum dry', 'mu'],
    ['low-pile carpet', 'rubber / short-pile carpet', 'mu'],
    ['damp concrete', 'rubber / concrete wet', 'mu_k'],
  ] as const)('%s: range of the handbook row %s', (name, pair, column) => {
    const row = handbook.friction.find((each) => each.pair === pair && column in each);
    const surface = checked.find((each) => each.name === name)!;
    expect([surface.frictionLow, surface.frictionHigh]).toEqual(row?.[column as keyof typeof row]);
  });

  test('full-size friction lies in the range for dry asphalt and damp concrete (Noon 1994)', () => {
    for (const [name, pair] of [
      ['dry asphalt', 'tyre / dry asphalt'],
      ['damp concrete', 'tyre / wet concrete'],
    ]) {
      const mu = handbook.friction.find((row) => row.pair === pair)?.mu as number;
      const surface = checked.find((each) => each.name === name)!;
      expect(mu).toBeGreaterThanOrEqual(surface.frictionLow);
      expect(mu).toBeLessThanOrEqual(surface.frictionHigh);
    }
  });

  test.each(checked)('every demo car drives on $name', (surface) => {
    for (const vehicle of Object.values(SAMPLES)) {
      const plant = createPlant(describePlant(vehicleOf(vehicle), surface));
      for (let i = 0; i < 2000; i++) plant.step([500, 500, 500, 500], 1, 0, 1e-3);
      expect(plant.state.body[VX]).toBeGreaterThan(0.15);
      expect(plant.check()).toBeUndefined();
    }
  });
});

describe('what lies where', () => {
  const [vinyl, carpet] = checked.map(describeSurface);
  const on = (ground: Ground) => createPlant({ ...referenceCar('grippy'), ground });

  test('split friction: a start with left wheels on the slippery side turns the car to it', () => {
    const slick = { ...vinyl!, friction: 0.1 };
    const plant = on(splitGround(slick, carpet!));
    for (let i = 0; i < 500; i++) plant.step([1000, 1000], 1, 0, 1e-3);
    // The right side pulls harder, so the car yaws to the left.
    expect(plant.state.body[YAW_RATE]).toBeGreaterThan(0.2);
    const mirrored = on(splitGround(carpet!, slick));
    for (let i = 0; i < 500; i++) mirrored.step([1000, 1000], 1, 0, 1e-3);
    expect(mirrored.state.body[YAW]).toBeCloseTo(-plant.state.body[YAW]!, 9);
  });

  test('the same material on both sides is the plain surface, to the last bit', () => {
    const [split, even] = [on(splitGround(vinyl!, vinyl!)), on(evenGround(vinyl!))];
    for (const plant of [split, even])
      for (let i = 0; i < 1500; i++) plant.step([800, 900], 1, 600, 1e-3);
    expect(split.state.body).toEqual(even.state.body);
  });

  test('a patch counts only where it lies, and the later one counts', () => {
    const ice = { ...vinyl!, friction: 0.05 };
    const patch = (material: typeof ice) => ({ fromX: 1, toX: 2, fromY: -1, toY: 1, material });
    const way = (patches: Ground['patches']) => {
      const plant = on({ ...evenGround(carpet!), patches });
      plant.place({ x: 0, y: 0, yaw: 0, speed: 2 });
      plant.setFaults([0, 1, 2, 3].map((wheel) => ({ kind: 'jammedWheel', wheel })));
      for (let i = 0; i < 3000; i++) plant.step([0, 0], 0, 0, 1e-3);
      expect(plant.state.body[Y]).toBeCloseTo(0, 9);
      return plant.state.body[X]!;
    };
    const stop = way([]);
    expect(stop).toBeLessThan(1);
    const early = { ...patch(ice), fromX: 0.1 };
    expect(way([early])).toBeGreaterThan(stop + 0.5);
    expect(way([early, { ...early, material: carpet! }])).toBeCloseTo(stop, 9);
    expect(way([{ ...early, fromY: 1, toY: 3 }])).toBe(stop);
  });
});
