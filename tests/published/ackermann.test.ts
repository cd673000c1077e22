import { describe, expect, test } from 'vitest';
import { bake } from '../../harness/setup/bake.ts';
import { S, TABLE_POINTS, V } from '../../lib/constants.ts';
import { changed, SAMPLES, setupOf, vehicleOf } from '../setup/samples.ts';
import handling from './handling.json' with { type: 'json' };

/** Full lock beyond the case's angle, so that this falls midway between two points of the table. */
const BEYOND = 16 / 12.5;

describe.each(handling.cases)(
  'Ackermann geometry of L $L m, t $t m, R $R_rear_centre m',
  (each) => {
    const vehicle = vehicleOf(
      changed(SAMPLES.hatch, {
        layout: 'twoPairs',
        frontDrive: 'none',
        wheelbaseMm: each.L * 1000,
        trackMm: each.t * 1000,
        cgToFrontAxleMm: each.L * 500,
        yawInertiaKgM2: (1.35 * each.L ** 2) / 5,
        steeringLockDeg: each.delta_centre_deg * BEYOND,
      }),
    );
    const setup = setupOf({
      name: 'a',
      surface: 'a',
      split: { geometrySharePercent: 100, cutCeilingPercent: 100 },
    });
    const constants = bake(vehicle, [setup]);

    test('rear inside over outside speed, as baked, is within 0.0001 of (R-t/2)/(R+t/2)', () => {
      const cut = interpolate(constants.setups[0] ?? [], S.CUT_TABLE, 1 / BEYOND);
      expect(Math.abs(1 - cut - each.rear_inner_over_outer)).toBeLessThan(0.0001);
    });

    test('front path ratios, as baked, give back the wheel angles within 0.05 degrees', () => {
      const inside = interpolate(constants.vehicle, V.FRONT_INSIDE, 1 / BEYOND);
      const outside = interpolate(constants.vehicle, V.FRONT_OUTSIDE, 1 / BEYOND);
      expect(Math.abs(degrees(Math.acos(1 / inside)) - each.delta_inner_deg)).toBeLessThan(0.05);
      expect(Math.abs(degrees(Math.acos(1 / outside)) - each.delta_outer_deg)).toBeLessThan(0.05);
      expect(Math.abs(inside - each.front_inner_over_rear_inner)).toBeLessThan(0.0005);
    });

    test('at a table point only rounding is left: cot(outer) - cot(inner) = t/L within 1 %', () => {
      const exact = vehicleOf(
        changed(vehicle, { steeringLockDeg: each.delta_centre_deg, file: undefined }),
      );
      const baked = bake(exact, [setup]);
      const last = TABLE_POINTS - 1;
      const cut = (baked.setups[0]?.[S.CUT_TABLE + last] ?? 0) / 10_000;
      expect(Math.abs(1 - cut - each.rear_inner_over_outer)).toBeLessThanOrEqual(0.00005);
      const cot = (index: number) =>
        1 / Math.tan(Math.acos(10_000 / (baked.vehicle[index + last] ?? 0)));
      const difference = cot(V.FRONT_OUTSIDE) - cot(V.FRONT_INSIDE);
      expect(Math.abs(difference - each.cot_diff)).toBeLessThan(each.cot_diff * 0.01);
    });
  },
);

/** As the core does it: linear between two points of the table, 1/10000. */
function interpolate(words: number[], from: number, share: number): number {
  const x = share * (TABLE_POINTS - 1);
  const i = Math.floor(x);
  const [a = 0, b = 0] = words.slice(from + i, from + i + 2);
  return (a + (b - a) * (x - i)) / 10_000;
}

function degrees(radians: number): number {
  return (radians * 180) / Math.PI;
}
